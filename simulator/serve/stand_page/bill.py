"""The test stand's bill: what each part of the system takes of a day, beside healthy."""

from dataclasses import replace
from functools import lru_cache
from typing import Any

from simulator.plant.energy import DAYS_IN_MONTH, Day
from simulator.quantities.shown import show
from simulator.serve.stand.house_day import DAILY, day_of, weather_of
from simulator.serve.stand.setting import Setting, conditions_of, installation_of
from simulator.serve.stand_page.key import Key, key_of, setting_of_key
from simulator.serve.stand_page.plot import table

LABELS = {
    "compressor": "Compressor",
    "outdoor_fan": "Outdoor fan",
    "blower": "Blower",
    "strips": "Strips",
    "total": "All of it",
}
COLUMNS = ("label", "energy", "energy_healthy", "cost", "cost_healthy")
SAME = 0.5  # less money apart than is printed [$]
CALLED = 0.05  # of the day: a call that somebody would notice [-]
STANDS = "Once such days have settled the compressor no longer runs at all."
HELD = 0.1  # off the setpoint [K]; less is the thermostat's own swing


def days(setting: Setting) -> tuple[Day, Day]:
    """The settled day as set, and without faults; each is worked out once.

    Parameters
    ----------
    setting : Setting
        Checked.

    Returns
    -------
    tuple of Day
    """
    ghost = healthy_day(setting)
    return (_day(key_of(setting)) if setting.faults else ghost), ghost


def healthy_day(setting: Setting) -> Day:
    """The day without faults; a slider of severity asks for the same one again and again.

    Parameters
    ----------
    setting : Setting
        Checked.

    Returns
    -------
    Day
    """
    return _day(key_of(replace(setting, faults={})))


@lru_cache(maxsize=64)
def _day(key: Key) -> Day:
    setting = setting_of_key(key)
    return day_of(installation_of(setting), conditions_of(setting))


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
    conditions = conditions_of(setting)
    now, ghost = days(setting)
    weather, setpoint = weather_of(conditions), float(conditions.indoor_temperature)
    low, high, rooms = (
        show(value, "temperature", system) for value in (weather.low, weather.high, setpoint)
    )
    return {
        "day": f"One day from {low} to {high} outdoors, the thermostat set to {rooms}.",
        "runs": _runs((now, ghost), setpoint, setting.mode, system),
        "energy_unit": DAILY[show(now.energy, "energy", system).unit],
        "cost_unit": DAILY[show(now.cost, "money", system).unit],
        "rows": _rows(now, ghost, system),
    }


def bill_chart(setting: Setting, system: str) -> dict[str, Any]:
    """The same for a month of such days, as bars.

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
    now, ghost = days(setting)
    told = bill(setting, system)
    months = [
        {part: DAYS_IN_MONTH * dollars for part, dollars in _dollars(day).items()}
        for day in (now, ghost)
    ]
    total, fine = (month["total"] for month in months)
    apart = "as much as healthy"
    if abs(total - fine) > SAME:
        dollars = f"${abs(total - fine):,.0f}"
        apart = f"{dollars} more than healthy" if total > fine else f"{dollars} less than healthy"
    return {
        "kind": "bars",
        "title": "Bill of a month",
        "summary": f"Thirty such days cost ${total:,.0f}, {apart}.",
        "notes": [f"Thirty such days: ${total:,.0f}, {apart}.", *told["runs"], told["day"]],
        "most": max(total, fine),
        "differs": setting.faults != {},
        "rows": [
            _bar(part, (months[0][part], months[1][part]))
            for part in LABELS
            if months[0][part] > 0.0 or months[1][part] > 0.0
        ],
        "tables": [_day_table(told)],
    }


def _bar(part: str, dollars: tuple[float, float]) -> dict[str, Any]:
    return {
        "part": part,
        "label": LABELS[part],
        "now": dollars[0],
        "healthy": dollars[1],
        "now_text": f"${dollars[0]:,.0f}",
        "healthy_text": f"${dollars[1]:,.0f}",
    }


def _day_table(told: dict[str, Any]) -> dict[str, Any]:
    units = (told["energy_unit"], told["cost_unit"])
    heads = [head for unit in units for head in (unit, f"healthy, {unit}")]
    rows = [[row[key] for key in COLUMNS] for row in told["rows"]]
    return table("What the day costs", ["Part", *heads], rows)


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
    now, fine = (DAYS_IN_MONTH * day.cost_by_part.compressor for day in days)
    if now < SAME < fine and days[0].mean_run_fraction > CALLED:
        said.append(STANDS)
    rooms = days[0].indoor_temperature
    heating = mode == "heating"
    worst = float(rooms.min() if heating else rooms.max())
    if (setpoint - worst if heating else worst - setpoint) > HELD:
        far = show(worst, "temperature", system)
        said.append(
            f"It does not hold the rooms: they fall to {far}."
            if heating
            else f"It does not hold the rooms: they reach {far}."
        )
    return said
