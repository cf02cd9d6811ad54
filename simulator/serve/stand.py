"""The test stand: settings as typed in, readings beside their healthy ghosts out."""

import math
from functools import lru_cache
from typing import Any

from simulator.faults._catalogue import discover
from simulator.plant import stacking, steady
from simulator.plant.operating_point import OperatingPoint
from simulator.quantities.entered import BadEntry
from simulator.quantities.shown import from_display, show, to_display
from simulator.serve import bench_setting
from simulator.serve.bench_limits import MODES, MOTORS, REFRIGERANTS, UNITS, ZONES
from simulator.serve.bench_readings import HEATING_READINGS, READINGS, frost_of
from simulator.serve.bench_setting import Setting
from simulator.serve.cycle_points import chart
from simulator.serve.stand_bill import bill
from simulator.serve.stand_charts import stand_chart
from simulator.serve.stand_entry import dials, setting_of, system_of, usual
from simulator.serve.stand_scales import scales_of

STATES = {
    "running": "Running and settled.",
    "high_pressure_trip": "The high-pressure switch has opened: the compressor stands.",
    "low_pressure_trip": "The low-pressure switch has opened: the compressor stands.",
    "overload_trip": "The compressor ran too hot: its overload protector has opened.",
    "compressor_off": "The compressor stands; the blower runs.",
    "off": "Everything stands.",
    "no_solution": "No steady state was found for this setting; the readings are those at rest.",
}
# Nothing here would show them: the house has one zone, and the stand calls no strips.
NOT_OFFERED = ("open_strip_element", "stuck_zone_damper")
NOTICEABLE = 0.012  # of the scale; less than this is within a tool's error


def answer(message: dict[str, Any]) -> dict[str, Any]:
    """Answer one message of the test stand.

    Parameters
    ----------
    message : dict
        ``do`` is ``set``, ``bill`` or ``chart``; numbers as typed.

    Returns
    -------
    dict
        ``stand``, ``bill`` or ``chart``, or ``problem`` with one sentence.
    """
    if message.get("do") not in ("set", "bill", "chart"):
        return {"problem": "The test stand only knows how to be set."}
    try:
        system = system_of(message)
        setting = bench_setting.checked(setting_of(message), system)
        if message["do"] == "chart":
            return {"chart": stand_chart(setting, str(message.get("chart", "")), system)}
    except BadEntry as problem:
        return {"problem": str(problem)}
    # A day takes longer than a slider may: the page asks for it once the slider rests.
    if message["do"] == "bill":
        return {"bill": bill(setting, system)}
    return {"stand": stand(setting, system)}


@lru_cache
def fault_choices() -> tuple[dict[str, Any], ...]:
    """Faults as the stand offers them; shares in percent.

    Returns
    -------
    tuple
        One entry a fault.
    """
    rows = []
    for name, kind in discover().items():
        if name in NOT_OFFERED:
            continue
        scale = 100.0 if kind.unit == "-" else 1.0
        high = kind.high * scale
        rows.append(
            {
                "name": name,
                "title": kind.title,
                "family": kind.family,
                "modes": kind.modes,
                "measure": kind.measure,
                "unit": "%" if kind.unit == "-" else kind.unit,
                "low": 0,
                "high": high,
                "typical": kind.typical * scale,
                "step": 1 if high >= 20 else 0.1,
            }
        )
    return tuple(rows)


def stand(setting: Setting, system: str) -> dict[str, Any]:
    """Everything the page paints.

    Parameters
    ----------
    setting : Setting
        Checked.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    dict
        Plain data.
    """
    conditions = bench_setting.conditions_of(setting)
    healthy = bench_setting.healthy_installation(setting)
    faulty = bench_setting.installation_of(setting)
    if setting.faults:
        both = steady.solve_many([healthy, faulty], [conditions, conditions])
        ghost, now = (stacking.chosen(both, index) for index in (0, 1))
    else:
        ghost = now = steady.solve(healthy, conditions)
    fluids = (faulty.unit.refrigerant, healthy.unit.refrigerant)
    return {
        "state": now.state,
        "state_text": state_text(now, setting.mode),
        "readings": [
            _row(name, scale, (now, ghost), system)
            for name, scale in scales_of(setting.mode).items()
        ],
        "meaning": meaning(now, ghost, setting.mode, system),
        "chart": chart((now, ghost), fluids, system),
        "limits": dials(setting.mode, system),
        "usual": usual(system),
        "choices": choices(),
        "faults": list(fault_choices()),
    }


@lru_cache
def choices() -> dict[str, tuple[str, ...]]:
    """Words that can be chosen.

    Returns
    -------
    dict
        By name of the setting.
    """
    return {
        "mode": MODES,
        "unit": UNITS,
        "refrigerant": REFRIGERANTS,
        "motor": MOTORS,
        "zone": ZONES,
    }


def state_text(now: OperatingPoint, called: str) -> str:
    """The state in a sentence.

    Parameters
    ----------
    now : OperatingPoint
        As it is.
    called : str
        Mode that the thermostat calls for.

    Returns
    -------
    str
    """
    if now.state == "running" and now.mode != called:
        return f"Running and settled, but {now.mode} where {called} is called for."
    # A state that has no sentence yet still has its name.
    return STATES.get(now.state, f"The compressor stands: {now.state.replace('_', ' ')}.")


def _value(name: str, point: OperatingPoint) -> tuple[float, str]:
    if name in ("temperature_split", "temperature_rise"):
        rise = point.supply_plenum_temperature - point.air_handler_return_temperature
        return float(rise if name.endswith("rise") else -rise), "temperature_difference"
    field, kind = READINGS.get(name) or HEATING_READINGS[name]
    value = float(getattr(point, field))
    return (value - float(point.pressure) if kind == "gauge_pressure" else value), kind


def _row(
    name: str,
    scale: tuple[str, str, float, float],
    points: tuple[OperatingPoint, OperatingPoint],
    system: str,
) -> dict[str, Any]:
    group, label, low, high = scale
    value, kind = _value(name, points[0])
    fine, _ = _value(name, points[1])
    shown, healthy = show(value, kind, system), show(fine, kind, system)
    ends = [float(from_display(end, kind, "us")) for end in (low, high)]
    difference = ""
    if abs(value - fine) > NOTICEABLE * (ends[1] - ends[0]):
        apart = {"temperature": "temperature_difference", "gauge_pressure": "pressure_difference"}
        size = show(abs(value - fine), apart.get(kind, kind), system)
        difference = f"{size} {'above' if value > fine else 'below'} healthy"
    return {
        "name": name,
        "label": label,
        "group": group,
        "unit": shown.unit,
        "now": shown.text,
        "healthy": healthy.text,
        "now_number": float(to_display(value, kind, system)),
        "healthy_number": float(to_display(fine, kind, system)),
        "low": float(to_display(ends[0], kind, system)),
        "high": float(to_display(ends[1], kind, system)),
        "difference": difference,
    }


def heat(value: float, system: str) -> str:
    """A heat rate to three digits; nobody can measure it any closer.

    Parameters
    ----------
    value : float
        [W]
    system : str
        ``us`` or ``si``.

    Returns
    -------
    str
        With its unit.

    Examples
    --------
    >>> heat(10551.0, "us"), heat(10551.0, "si")
    ('36,000 Btu/h', '10.6 kW')
    """
    size = abs(float(to_display(value, "heat_rate", system)))
    digits = 2 - math.floor(math.log10(size)) if size > 0.01 else 2
    rounded = float(
        from_display(
            round(float(to_display(value, "heat_rate", system)), digits), "heat_rate", system
        )
    )
    return str(show(rounded, "heat_rate", system, decimals=max(digits, 0)))


def meaning(now: OperatingPoint, ghost: OperatingPoint, called: str, system: str) -> list[str]:
    """What the readings add up to, in sentences.

    Parameters
    ----------
    now, ghost : OperatingPoint
        With faults, and without.
    called : str
        Mode that the thermostat calls for.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    list
        Sentences.
    """
    if now.state != "running":
        return [state_text(now, called)]

    def share(name: str) -> str:
        fine = float(getattr(ghost, name))
        if ghost.state != "running" or now.mode != ghost.mode or fine <= 0.0:
            return "which healthy does not"
        return f"{100 * float(getattr(now, name)) / fine:.0f} % of healthy"

    coil, rooms = heat(float(now.gross_capacity), system), float(now.delivered_capacity)
    watts = show(float(now.outdoor_power + now.air_handler_power), "power", system)
    does = "gives {} to" if now.mode == "heating" else "takes {} from"
    said = [f"The coil {does.format(coil)} the air, {share('gross_capacity')}."]
    if now.mode != called:
        said.append(f"The thermostat calls for {called}.")
    else:
        said.append(f"{heat(rooms, system)} reach the rooms, {share('delivered_capacity')}.")
    said.append(f"For that the house draws {watts} while it runs.")
    if called == "heating":
        said.append(_frost(now, system))
    return said


def _frost(now: OperatingPoint, system: str) -> str:
    found = frost_of(now)
    if found["collecting_frost"]["value"]:
        rate = show(float(now.frost_rate), "condensate_rate", system, decimals=2)
        return f"The outdoor coil boils below freezing and collects {rate} of frost."
    if found["coil_below_freezing"]["value"]:
        return "The outdoor coil boils below freezing; the air is too dry to frost it."
    return "The outdoor coil boils above freezing: no frost."
