"""The test stand's bill: what each part of the system takes of a day, beside healthy."""

from dataclasses import fields
from functools import lru_cache
from typing import Any

from simulator.plant.energy import Day
from simulator.quantities.shown import show
from simulator.serve import bench_setting
from simulator.serve.bench_setting import Setting
from simulator.serve.house_day import PER_DAY, day_of, weather_of

LABELS = {
    "compressor": "Compressor",
    "outdoor_fan": "Outdoor fan",
    "blower": "Blower",
    "strips": "Strips",
    "total": "All of it",
}
HELD = 0.1  # off the setpoint [K]; less is the thermostat's own swing


@lru_cache(maxsize=64)
def _healthy_day(**plain: Any) -> Day:
    """The day without faults; a slider of severity asks for the same one again and again."""
    setting = Setting(**plain)
    return day_of(bench_setting.healthy_installation(setting), bench_setting.conditions_of(setting))


def bill(setting: Setting, system: str) -> dict[str, Any]:
    """Energy and money by part, as set and healthy.

    Parameters
    ----------
    setting : Setting
        Checked.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    dict
        Plain data: the day in words, the units, and one row a part.
    """
    conditions = bench_setting.conditions_of(setting)
    ghost = _healthy_day(
        **{f.name: getattr(setting, f.name) for f in fields(setting) if f.name != "faults"}
    )
    faulty = bench_setting.installation_of(setting)
    now = day_of(faulty, conditions) if setting.faults else ghost
    weather, setpoint = weather_of(conditions), float(conditions.indoor_temperature)
    low, high, rooms = (
        show(value, "temperature", system) for value in (weather.low, weather.high, setpoint)
    )
    return {
        "day": f"One day from {low} to {high} outdoors, the thermostat set to {rooms}.",
        "runs": _runs((now, ghost), setpoint, setting.mode, system),
        "energy_unit": show(now.energy, "energy", system).unit + PER_DAY,
        "cost_unit": show(now.cost, "money", system).unit + PER_DAY,
        "rows": _rows(now, ghost, system),
    }


def _joules(day: Day) -> dict[str, float]:
    return {**day.energy_by_part._asdict(), "total": day.energy}


def _dollars(day: Day) -> dict[str, float]:
    return {**day.cost_by_part._asdict(), "total": day.cost}


def _rows(now: Day, ghost: Day, system: str) -> list[dict[str, str]]:
    """Each part, with the total below."""
    joules, dollars = [_joules(now), _joules(ghost)], [_dollars(now), _dollars(ghost)]
    return [
        {
            "part": part,
            "label": label,
            "energy": show(joules[0][part], "energy", system).text,
            "energy_healthy": show(joules[1][part], "energy", system).text,
            "cost": show(dollars[0][part], "money", system, decimals=2).text,
            "cost_healthy": show(dollars[1][part], "money", system, decimals=2).text,
        }
        for part, label in LABELS.items()
    ]


def _runs(days: tuple[Day, Day], setpoint: float, mode: str, system: str) -> list[str]:
    shares = [show(day.mean_run_fraction, "fraction", system) for day in days]
    said = [f"It runs {shares[0]} of the day; healthy, {shares[1]}."]
    rooms = days[0].indoor_temperature
    heating = mode == "heating"
    worst = float(rooms.min() if heating else rooms.max())
    if (setpoint - worst if heating else worst - setpoint) > HELD:
        does = "fall to" if heating else "reach"
        said.append(
            f"It does not hold the rooms: they {does} {show(worst, 'temperature', system)}."
        )
    return said
