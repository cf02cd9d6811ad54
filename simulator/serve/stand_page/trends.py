"""What takes time: a bill, a day before and after, the rooms after a repair; part by part.

Each chart is asked for in parts, so that the page can draw what has arrived, say how far it
is, and answer a slider in between.
"""

from collections.abc import Callable
from functools import lru_cache
from typing import Any

import numpy as np

from simulator.plant.day_record import hourly
from simulator.plant.pull_down import PullDown, pull_down
from simulator.quantities.entered import BadEntry
from simulator.quantities.shown import display, printed
from simulator.serve.stand.house_day import weather_of
from simulator.serve.stand.setting import Setting, conditions_of, healthy_installation
from simulator.serve.stand_page.bill import bill_chart, days, healthy_day
from simulator.serve.stand_page.key import Key, key_of, setting_of_key
from simulator.serve.stand_page.plot import axis, in_units, line, mark, points, table, told
from simulator.serve.stand_page.start_up import PARTS, STARTS, start_chart

HOUR_OF_REPAIR = {"cooling": 15.0, "heating": 7.0}  # when the weather asks most


def slow_chart(setting: Setting, name: str, part: int, system: str) -> dict[str, Any]:
    """One part of a chart that takes time.

    Parameters
    ----------
    setting : Setting
        Checked.
    name : str
        One of ``SLOW``.
    part : int
        From 0.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    dict
        The chart so far, with ``part`` and ``parts``.

    Raises
    ------
    BadEntry
        For a chart or a part there is not.
    """
    if name not in SLOW:
        raise BadEntry(f"The chart must be one of {', '.join(SLOW)}.")
    parts, drawn = SLOW[name]
    if not 0 <= part < parts:
        raise BadEntry(f"That chart has {parts} parts.")
    chart = drawn(setting, name, part, system)
    return {**chart, "name": name, "part": part, "parts": parts}


def _bill(setting: Setting, _: str, part: int, system: str) -> dict[str, Any]:
    if part == 0:
        healthy_day(setting)  # kept, for the next part
        return _wait("Bill of a month")
    return bill_chart(setting, system)


def _wait(title: str) -> dict[str, Any]:
    """Something is worked out, and there is nothing to draw yet."""
    return {"kind": "wait", "title": title, "summary": title, "tables": []}


def _run_time(setting: Setting, _: str, part: int, system: str) -> dict[str, Any]:
    """Minutes of each hour of the clock that the system answers a call."""
    healthy = healthy_day(setting)
    arrived = [("healthy", healthy)]
    if part == 1:
        arrived.append(("now", days(setting)[0]))
    rows = {role: 60.0 * hourly(day.run_fraction) for role, day in arrived}
    clock = np.arange(25)
    lines, said = [], []
    for role, day in arrived:
        if part == 1 and role == "healthy" and not setting.faults:
            continue
        steps = np.repeat(rows[role], 2)
        total = f"{printed(24.0 * day.mean_run_fraction, 1)} h a day"
        total = total if role == "now" else f"healthy {total}"
        lines.append(line(role, points(np.repeat(clock, 2)[1:-1], steps), total, at=30))
        said.append(total)
    return {
        "kind": "plot",
        "title": "Run time over a day",
        "summary": f"The system runs {'; '.join(reversed(said))}.",
        "x": axis("Hour of the day", "", (0.0, 24.0), ticks=(0, 6, 12, 18, 24)),
        "y": axis("Runs in each hour", "min", (0.0, 63.0), ticks=(0, 15, 30, 45, 60)),
        "lines": lines,
        "marks": [],
        "tables": [
            table(
                "Minutes in each hour",
                ("Hour", *(role for role in rows)),
                [(str(hour), *(printed(row[hour]) for row in rows.values())) for hour in range(24)],
            )
        ],
    }


def _rooms(setting: Setting, _: str, part: int, system: str) -> dict[str, Any]:
    """Room temperature over the same day."""
    arrived = [("healthy", healthy_day(setting))]
    if part == 1:
        arrived.append(("now", days(setting)[0]))
        arrived = arrived if setting.faults else arrived[1:]
    rows = {role: in_units(day.indoor_temperature, "temperature", system) for role, day in arrived}
    low, high = (float(f([f(row) for row in rows.values()])) for f in (min, max))
    lines, marks = [], []
    for role, day in arrived:
        row = rows[role]
        lines.append(line(role, points(day.hours, row), role if role == "healthy" else ""))
        worst = int(row.argmin() if setting.mode == "heating" else row.argmax())
        if role == "now":
            text = told(float(day.indoor_temperature[worst]), "temperature", system)
            side = "below" if setting.mode == "heating" else "above"
            marks.append(mark(role, (float(day.hours[worst]), float(row[worst])), text, side))
    return {
        "kind": "plot",
        "title": "Rooms over a day",
        "summary": f"Room temperature over a day: at worst {marks[0]['text']}."
        if marks
        else "Room temperature over a day.",
        "x": axis("Hour of the day", "", (0.0, 24.0), ticks=(0, 6, 12, 18, 24)),
        "y": axis("Rooms", display("temperature", system).unit, (low - 2.0, high + 2.0)),
        "lines": lines,
        "marks": marks,
        "tables": [
            table(
                "Room temperature",
                ("Hour", *(role for role in rows)),
                [
                    (str(h), *(printed(float(row[6 * h]), 1) for row in rows.values()))
                    for h in range(24)
                ],
            )
        ],
    }


@lru_cache(maxsize=16)
def _pulled(key: Key) -> PullDown:
    setting = setting_of_key(key)
    around = conditions_of(setting)
    return pull_down(
        healthy_installation(setting),
        days(setting)[0],
        weather_of(around),
        float(around.indoor_temperature),
        mode=setting.mode,
        hour=HOUR_OF_REPAIR[setting.mode],
    )


def _after(setting: Setting, _: str, part: int, system: str) -> dict[str, Any]:
    """Room temperature from the hour of the repair on, with and without it."""
    title = "Rooms after the repair"
    if part == 0:
        days(setting)  # kept, for the next part
        return _wait(title)
    found = _pulled(key_of(setting))
    hours = found.minutes / 60.0
    rows = [in_units(one, "temperature", system) for one in (found.repaired, found.unrepaired)]
    goal = float(in_units(found.held, "temperature", system))
    ends = [goal, *(float(f(row)) for row in rows for f in (np.min, np.max))]
    until = found.minutes_until_held(setting.mode == "heating")
    said = _back_after(until, HOUR_OF_REPAIR[setting.mode]) if setting.faults else NO_REPAIR
    marks = []
    if until:
        at = int(np.flatnonzero(found.minutes == until)[0])
        place = (float(hours[at]), float(rows[0][at]))
        marks = [mark("now", place, f"{printed(until / 60.0, 1)} h", "above")]
    return {
        "kind": "plot",
        "title": title,
        "summary": said,
        "notes": [said],
        "x": axis("Hours since the repair", "", (0.0, float(hours[-1])), ticks=(0, 3, 6, 9)),
        "y": axis("Rooms", display("temperature", system).unit, (min(ends) - 1.5, max(ends) + 1.5)),
        "lines": [
            line("guide", [[0.0, goal], [float(hours[-1]), goal]], "setpoint", thin=True),
            line("healthy", points(hours, rows[1]), "not repaired", at=24),
            line("now", points(hours, rows[0]), "repaired"),
        ],
        "marks": marks,
        "tables": [
            table(
                title,
                ("Hours", "repaired", "not repaired"),
                [
                    (printed(float(hours[i])), *(printed(float(row[i]), 1) for row in rows))
                    for i in range(0, len(hours), 6)
                ],
            )
        ],
    }


NO_REPAIR = "Nothing is wrong, so nothing is repaired: choose a fault first."


def _back_after(until: float | None, hour: float) -> str:
    """How long the rooms took, in a sentence; minutes in."""
    if until is None:
        return f"Repaired at {hour:.0f}:00, the rooms are not back at the setpoint in nine hours."
    if until == 0.0:
        return "The rooms had not left the setpoint; the repair shows in the run time."
    taken = printed(until / 60.0, 1)
    return f"Repaired at {hour:.0f}:00, the rooms are back at the setpoint after {taken} h."


Drawn = Callable[[Setting, str, int, str], dict[str, Any]]
SLOW: dict[str, tuple[int, Drawn]] = {
    "bill": (2, _bill),
    "run_time": (2, _run_time),
    "rooms": (2, _rooms),
    "after": (2, _after),
    **dict.fromkeys(STARTS, (PARTS, start_chart)),
}
"""In how many parts, and how, each is worked out."""
