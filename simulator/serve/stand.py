"""The test stand: settings as typed in, readings beside their healthy ghosts out."""

from functools import lru_cache
from typing import Any

import numpy as np

from simulator.faults._catalogue import discover
from simulator.plant import stacking, steady
from simulator.plant.operating_point import OperatingPoint
from simulator.properties import refrigerant
from simulator.quantities.entered import BadEntry
from simulator.quantities.shown import SYSTEMS, from_display, show, to_display
from simulator.serve import bench_readings
from simulator.serve.bench_readings import READINGS, Setting
from simulator.serve.cycle_points import corners, displayed, dome
from simulator.serve.stand_bill import bill

# On the stand: group, label, and the ends of the scale in the technician's units.
SCALES: dict[str, tuple[str, str, float, float]] = {
    "suction_pressure": ("Low side", "Suction pressure", 60, 200),
    "superheat": ("Low side", "Superheat", 0, 45),
    "suction_line_temperature": ("Low side", "Suction line", 30, 100),
    "liquid_pressure": ("High side", "Liquid pressure", 200, 610),
    "subcooling": ("High side", "Subcooling", 0, 35),
    "liquid_line_temperature": ("High side", "Liquid line", 60, 140),
    "liquid_after_drier_temperature": ("High side", "Liquid after the drier", 60, 140),
    "discharge_temperature": ("High side", "Discharge line", 100, 260),
    "outdoor_leaving_temperature": ("High side", "Air off the outdoor coil", 60, 150),
    "temperature_split": ("Air", "Split at the air handler", -10, 35),
    "air_handler_return_temperature": ("Air", "Return at the air handler", 60, 110),
    "supply_plenum_temperature": ("Air", "Supply plenum", 40, 100),
    "near_register_temperature": ("Air", "Nearest register", 40, 100),
    "far_register_temperature": ("Air", "Farthest register", 40, 100),
    "airflow": ("Air", "Airflow", 300, 1600),
    "register_airflow": ("Air", "Sum of the registers", 300, 1600),
    "condensate_rate": ("Air", "Condensate", 0, 16),
    "total_external_static": ("Static", "Total external static", 0, 1.2),
    "filter_drop": ("Static", "Filter drop", 0, 0.8),
    "coil_drop": ("Static", "Coil drop", 0, 0.5),
    "compressor_current": ("Electrical", "Compressor", 0, 20),
    "outdoor_power": ("Electrical", "Outdoor unit", 0, 5000),
    "air_handler_current": ("Electrical", "Air handler", 0, 60),
    "house_pressure": ("House", "House pressure", -6, 6),
}
STEPS = {"outdoor": 1.0, "return_db": 0.5, "return_wb": 0.5, "airflow": 5.0}
STATES = {
    "running": "Running and settled.",
    "high_pressure_trip": "The high-pressure switch has opened: the compressor stands.",
    "low_pressure_trip": "The low-pressure switch has opened: the compressor stands.",
    "no_solution": "No steady state was found for this setting; the readings are those at rest.",
}
MOST_FAULTS = 2
NOTICEABLE = 0.012  # of the scale; less than this is within a tool's error


def answer(message: dict[str, Any]) -> dict[str, Any]:
    """Answer one message of the test stand.

    Parameters
    ----------
    message : dict
        ``do`` is ``set`` or ``bill``; numbers as typed.

    Returns
    -------
    dict
        ``stand`` or ``bill``, or ``problem`` with one sentence.
    """
    if message.get("do") not in ("set", "bill"):
        return {"problem": "The test stand only knows how to be set."}
    try:
        setting = bench_readings.checked(_setting(message))
        system = _system(message)
    except BadEntry as problem:
        return {"problem": str(problem)}
    # A day takes longer than a slider may: the page asks for it once the slider rests.
    if message["do"] == "bill":
        return {"bill": bill(setting, system)}
    return {"stand": stand(setting, system)}


def _system(message: dict[str, Any]) -> str:
    system = message.get("units", "us")
    if system not in SYSTEMS:
        raise BadEntry("Units are us or si.")
    return str(system)


def _number(message: dict[str, Any], key: str, name: str) -> float:
    text = str(message.get(key, "")).strip()
    if not text:
        raise BadEntry(f"{name} is missing; give a number.")
    try:
        return float(text[:40])
    except ValueError:
        raise BadEntry(f"{name} must be a number, not {text[:40]!r}.") from None


def _setting(message: dict[str, Any]) -> Setting:
    numbers = {
        key: _number(message, key, name[0].upper() + name[1:])
        for key, (_, _, _, name) in bench_readings.LIMITS.items()
    }
    numbers["airflow"] /= 100.0
    asked = message.get("faults", [])
    if not isinstance(asked, list) or len(asked) > MOST_FAULTS:
        raise BadEntry(f"At most {MOST_FAULTS} faults fit on the stand.")
    faults: dict[str, float] = {}
    for row in asked:
        name = str(row.get("name", "")) if isinstance(row, dict) else ""
        kind = discover().get(name)
        if kind is None:
            raise BadEntry("That fault is not in the list; choose one from it.")
        if name in faults:
            raise BadEntry(f"{kind.title} is chosen twice; choose another for the second fault.")
        amount = _number(row, "severity", f"The severity of {kind.title.lower()}")
        scale = 100.0 if kind.unit == "-" else 1.0
        faults[name] = _in_range(kind, amount, scale)
    return Setting(
        metering=str(message.get("metering", "")),
        faults=faults,
        outdoor=numbers["outdoor"],
        return_db=numbers["return_db"],
        return_wb=numbers["return_wb"],
        airflow=numbers["airflow"],
    )


def _in_range(kind: Any, amount: float, scale: float) -> float:
    if not np.isfinite(amount) or not kind.low * scale <= amount <= kind.high * scale:
        unit = "%" if kind.unit == "-" else f" {kind.unit}"
        raise BadEntry(
            f"{kind.title} takes {kind.low * scale:g} to {kind.high * scale:g}{unit}, "
            f"not {amount:g}."
        )
    return amount / scale


@lru_cache
def fault_choices() -> tuple[dict[str, Any], ...]:
    """All faults as the stand offers them; shares in percent.

    Returns
    -------
    tuple
        One entry a fault.
    """
    rows = []
    for name, kind in discover().items():
        scale = 100.0 if kind.unit == "-" else 1.0
        high = kind.high * scale
        rows.append(
            {
                "name": name,
                "title": kind.title,
                "family": kind.family,
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
    conditions = bench_readings.conditions_of(setting)
    healthy = bench_readings.healthy_installation(setting)
    faulty = bench_readings.installation_of(setting)
    if setting.faults:
        both = steady.solve_many([healthy, faulty], [conditions, conditions])
        ghost, now = (stacking.chosen(both, index) for index in (0, 1))
    else:
        ghost = now = steady.solve(healthy, conditions)
    return {
        "state": now.state,
        "state_text": STATES[now.state],
        "readings": [_row(name, now, ghost, system) for name in SCALES],
        "meaning": meaning(now, ghost, system),
        "chart": _chart(healthy.unit.refrigerant, now, ghost, system),
        "limits": {
            key: {
                "low": low * (100.0 if key == "airflow" else 1.0),
                "high": high * (100.0 if key == "airflow" else 1.0),
                "step": STEPS[key],
            }
            for key, (low, high, _, _) in bench_readings.LIMITS.items()
        },
        "faults": list(fault_choices()),
    }


def _value(name: str, point: OperatingPoint) -> tuple[float, str]:
    if name == "temperature_split":
        split = point.air_handler_return_temperature - point.supply_plenum_temperature
        return float(split), "temperature_difference"
    field, kind = READINGS[name]
    value = float(getattr(point, field))
    return (value - float(point.pressure) if kind == "gauge_pressure" else value), kind


def _row(name: str, now: OperatingPoint, ghost: OperatingPoint, system: str) -> dict[str, Any]:
    group, label, low, high = SCALES[name]
    value, kind = _value(name, now)
    fine, _ = _value(name, ghost)
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


def meaning(now: OperatingPoint, ghost: OperatingPoint, system: str) -> list[str]:
    """What the readings add up to, in sentences.

    Parameters
    ----------
    now, ghost : OperatingPoint
        With faults, and without.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    list
        Sentences.
    """
    if now.state != "running":
        return [STATES[now.state]]

    def share(name: str) -> str:
        return f"{100 * float(getattr(now, name)) / float(getattr(ghost, name)):.0f} %"

    coil = show(float(now.gross_capacity), "heat_rate", system)
    rooms = show(float(now.delivered_capacity), "heat_rate", system)
    watts = show(float(now.outdoor_power + now.air_handler_power), "power", system)
    return [
        f"The coil takes {coil} from the air, {share('gross_capacity')} of healthy.",
        f"{rooms} reach the rooms, {share('delivered_capacity')} of healthy.",
        f"For that the house pays {watts} while it runs.",
    ]


@lru_cache
def _dome(fluid: str, system: str) -> tuple[tuple[float, float], ...]:
    enthalpy, pressure = dome(refrigerant.load(fluid))
    return displayed(enthalpy, pressure, system)


def _chart(fluid: str, now: OperatingPoint, ghost: OperatingPoint, system: str) -> dict[str, Any]:
    table = refrigerant.load(fluid)
    runs = now.state == "running"
    state = "running" if runs else "stands"
    return {
        "dome": _dome(fluid, system),
        "healthy": displayed(*corners(table, ghost), system) if ghost.state == "running" else [],
        "now": displayed(*corners(table, now), system) if runs else None,
        "differs": now is not ghost,
        "h_unit": "Btu/lb" if system == "us" else "kJ/kg",
        "p_unit": "psia" if system == "us" else "kPa absolute",
        "summary": f"Pressure over enthalpy of {fluid}: the cycle {state}. Values in the table.",
    }
