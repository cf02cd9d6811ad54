"""The readings over the minutes after a start, healthy and as set."""

from functools import lru_cache
from typing import Any, NamedTuple

import numpy as np

from simulator.plant import stacking, steady, timeline
from simulator.plant.short_cycle import ShortCycle, short_cycle
from simulator.quantities.shown import display, printed, show
from simulator.quantities.values import Array
from simulator.serve.bench_readings import read
from simulator.serve.stand.setting import (
    Setting,
    conditions_of,
    healthy_installation,
    installation_of,
)
from simulator.serve.stand_page.key import Key, key_of, setting_of_key
from simulator.serve.stand_page.plot import axis, in_units, line, points, table

MINUTES = (0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0, 7.5, 9.0, 10.5, 12.0, 13.5, 15.0)
PARTS = 3  # of a start-up


class _Kind(NamedTuple):
    """What a start-up chart shows: title, axis, quantity, and its fields with their names."""

    title: str
    axis: str
    kind: str
    fields: tuple[tuple[str, str], ...]


STARTS: dict[str, _Kind] = {
    "start_heat": _Kind(
        "Start-up: superheat, subcooling",
        "Degrees",
        "temperature_difference",
        (("superheat", "superheat"), ("subcooling", "subcooling")),
    ),
    "start_pressure": _Kind(
        "Start-up: pressures",
        "Pressure",
        "gauge_pressure",
        (("liquid_pressure", "liquid"), ("suction_pressure", "suction")),
    ),
    "start_air": _Kind(
        "Start-up: air",
        "Dry bulb",
        "temperature",
        (("air_handler_return_temperature", "return"), ("supply_plenum_temperature", "supply")),
    ),
}


@lru_cache(maxsize=48)
def _moments(key: Key, part: int) -> dict[str, Array]:
    """Readings of one part of a start-up, healthy above and as set below; nan at a stand."""
    setting = setting_of_key(key)
    around = conditions_of(setting)
    built = (healthy_installation(setting), installation_of(setting))
    minutes = np.array_split(np.array(MINUTES), PARTS)[part]
    many = [timeline.since_start(one, 60.0 * float(minute)) for one in built for minute in minutes]
    found = steady.solve_many(many, [around] * len(many))
    runs = np.array([stacking.chosen(found, i).state == "running" for i in range(len(many))])
    shape = (2, len(minutes))

    def field(name: str, kind: str) -> Array:
        value = np.broadcast_to(read(found, name, kind), len(many))
        return np.where(runs, value, np.nan).reshape(shape)

    return {name: field(name, row.kind) for row in STARTS.values() for name, _ in row.fields}


def start_chart(setting: Setting, name: str, part: int, system: str) -> dict[str, Any]:
    """Readings over the minutes since the start, as far as they have been worked out.

    Parameters
    ----------
    setting : Setting
        Checked.
    name : str
        One of ``STARTS``.
    part : int
        The last of those wanted.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    dict
        Plain data.
    """
    kind, key = STARTS[name], key_of(setting)
    unit = display(kind.kind, system).unit
    arrived = [_moments(key, index) for index in range(part + 1)]
    minutes = np.array(MINUTES)[: sum(one[kind.fields[0][0]].shape[1] for one in arrived)]
    ways = {
        field: in_units(np.hstack([one[field] for one in arrived]), kind.kind, system)
        for field, _ in kind.fields
    }
    seen = np.concatenate([way[np.isfinite(way)] for way in ways.values()])
    low, high = (float(seen.min()), float(seen.max())) if seen.size else (0.0, 1.0)
    room = max(0.12 * (high - low), 1.0)
    lines: list[dict[str, Any]] = []
    said: list[str] = []
    sides: tuple[tuple[str, int], ...] = (
        (("healthy", 0), ("now", 1)) if setting.faults else (("now", 1),)
    )
    for role, row in sides:
        for field, label in kind.fields:
            pairs = points(minutes, ways[field][row])
            last = f"{label} {printed(pairs[-1][1], _digits(kind.kind))}" if pairs else ""
            lines.append(
                line(role, pairs, last if role == "now" or not last else f"healthy {last}")
            )
            if role == "now":
                said.append(f"{last} {unit}" if last else f"{label} stands")
    turn = _turn(setting)
    notes = [_cycles(turn)] if turn else []
    return {
        "kind": "plot",
        "title": kind.title,
        "summary": f"Minutes since the start: {', '.join(said)}.",
        "notes": notes,
        "x": axis("Minutes since the start", "", (0.0, MINUTES[-1]), ticks=(0, 5, 10, 15)),
        "y": axis(kind.axis, unit, (low - room, high + room)),
        "lines": lines,
        "marks": [],
        "tables": [_start_table(kind, minutes, ways)],
    }


def _start_table(kind: _Kind, minutes: Array, ways: dict[str, Array]) -> dict[str, Any]:
    digits = _digits(kind.kind)

    def cell(value: float) -> str:
        return printed(value, digits) if np.isfinite(value) else "stands"

    heads = [head for _, label in kind.fields for head in (label, f"{label}, healthy")]
    rows = [
        [printed(minute, 1)]
        + [cell(float(ways[field][row][i])) for field, _ in kind.fields for row in (1, 0)]
        for i, minute in enumerate(minutes)
    ]
    return table(kind.title, ["Minutes", *heads], rows)


def _digits(kind: str) -> int:
    return 0 if kind == "gauge_pressure" else 1


@lru_cache(maxsize=16)
def _turn_of(key: Key) -> ShortCycle | None:
    setting = setting_of_key(key)
    return short_cycle(installation_of(setting), conditions_of(setting))


def _turn(setting: Setting) -> ShortCycle | None:
    return _turn_of(key_of(setting)) if setting.faults or setting.refrigerant else None


def _cycles(turn: ShortCycle) -> str:
    on, off = (
        show(seconds, "duration", "us", decimals=1)
        for seconds in (turn.on_seconds, turn.off_seconds)
    )
    return f"It trips on high pressure after {on}, stands {off} and starts again."
