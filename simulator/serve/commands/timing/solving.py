"""How long the plant takes: alone, from a neighbour, in batches, and beside other means."""

import sys
from dataclasses import replace
from importlib import import_module
from itertools import cycle
from typing import Any

import numpy as np

from simulator.plant import catalogue, steady
from simulator.plant.case import prepared
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.plant.report import operating_point
from simulator.properties import moist_air
from simulator.quantities.values import Array
from simulator.serve.commands.timing.times import Timing, timed
from simulator.serve.paths import PACKAGE

BATCH = 10000  # the size that the bar on solutions a second is asked of
SINGLES = 20  # drawn scenarios that single solutions go through
GROWTH = (10, 100, 1000, 5000)  # beside it, to show the growth with size


def solving(times: int) -> list[Timing]:
    """Time one solution and a batch.

    Cold and warm go in turn through the first of the drawn scenarios, half of them with a
    valve; both run from the installation as it stands to every reading, with the tables
    already loaded. Cold knows of no other solution. Warm starts from the solution before
    the outdoor air changed by a kelvin.

    Parameters
    ----------
    times : int
        How often the batch is solved; the single ones ten times as often. [-]

    Returns
    -------
    list of Timing
        Three lines.
    """
    installations, conditions = scenarios(BATCH)
    drawn = list(zip(installations, conditions, strict=True))[:SINGLES]
    before = [steady.settle(prepared(*one), 1).unknowns for one in drawn]
    turns, again = cycle(drawn), cycle(zip(drawn, before, strict=True))
    one = timed(lambda: steady.solve(*next(turns)), 10 * times)
    warm = timed(lambda: _a_kelvin_later(*next(again)), 10 * times)
    many = timed(lambda: steady.solve_many(installations, conditions), times)
    return [
        Timing(what="one solution of the plant, cold", seconds=one, bar="≤ 15 ms"),
        Timing(what="one solution a kelvin from a known one", seconds=warm, bar="≤ 8 ms"),
        Timing(what=f"{BATCH:,} solutions in one batch", seconds=many),
    ]


def _a_kelvin_later(one: tuple[Installation, Conditions], start: Array) -> OperatingPoint:
    installation, conditions = one
    warmer = replace(conditions, outdoor_temperature=conditions.outdoor_temperature + 1.0)
    case = prepared(installation, warmer)
    return operating_point(case, steady.settle(case, 1, start))


def comparison(times: int) -> dict[str, Any]:
    """Solutions a second, and the same physics by other means, all from this run.

    Parameters
    ----------
    times : int
        How often the batch is solved. [-]

    Returns
    -------
    dict
        ``batch_solves_per_s``, of the median run of ``batch_size``; ``cold_ms``,
        ``warm_ms``, ``growth`` (solutions a second by size of batch, medians too); where the
        reference scripts and their libraries are at hand also ``naive_ratio``,
        ``tespy_batch_ratio`` and ``tespy_single_ratio``: their time for one solution over the
        plant's.
    """
    cold, warm, many = solving(times)
    each = many.typical / BATCH
    found: dict[str, Any] = {
        "batch_solves_per_s": 1.0 / each,
        "batch_size": BATCH,
        "cold_ms": 1e3 * cold.typical,
        "warm_ms": 1e3 * warm.typical,
        "growth": {**growing(times), str(BATCH): 1.0 / each},
    }
    try:
        plain, tespy = _reference("plain_solver"), _reference("tespy_cycle")
    except ImportError:
        return found
    installations, conditions = scenarios(4)
    naive = [
        timed(lambda a=one, b=around: plain.solved(a, b), 1)[0]  # type: ignore[misc]
        for one, around in zip(installations, conditions, strict=True)
    ]
    # Every scenario is another machine, so TESPy gets a fresh network each time; its
    # building is not timed.
    networks = [tespy.cycle(condensing=40.0 + number) for number in range(6)]
    other = float(np.median(timed(lambda: tespy.solve(networks.pop()), 5)))
    return {
        **found,
        "naive_ratio": float(np.median(naive)) / each,
        "tespy_batch_ratio": other / each,
        "tespy_single_ratio": 1e3 * other / found["cold_ms"],
    }


def growing(times: int) -> dict[str, float]:
    """Solutions a second in smaller batches.

    Parameters
    ----------
    times : int
        How often each is solved. [-]

    Returns
    -------
    dict
        By size of batch, of the median run. [1/s]
    """
    found = {}
    for size in GROWTH:
        installations, conditions = scenarios(size)
        taken = timed(lambda a=installations, b=conditions: steady.solve_many(a, b), times)  # type: ignore[misc]
        found[str(size)] = size / float(np.median(taken))
    return found


def _reference(name: str) -> Any:
    """A script kept with the tests, which only a checkout has."""
    place = str(PACKAGE.parent)
    if place not in sys.path:
        sys.path.append(place)
    return import_module(f"tests.reference.{name}")


def scenarios(count: int) -> tuple[list[Installation], list[Conditions]]:
    """Charge, airflow, leaks and weather drawn over the field range, always the same ones.

    Parameters
    ----------
    count : int
        How many. [-]

    Returns
    -------
    tuple of list
        Installations and conditions.
    """
    draw = np.random.default_rng(36)
    devices = [catalogue.load_installation(metering=name) for name in catalogue.METERING]
    built, around = [], []
    for number in range(count):
        healthy = devices[number % len(devices)]
        unit = healthy.unit
        unit = replace(
            unit,
            charge=unit.charge * draw.uniform(0.7, 1.3),
            blower=replace(unit.blower, torque_fraction=draw.uniform(0.4, 1.3)),
            outdoor_coil=replace(unit.outdoor_coil, blocked_fraction=draw.uniform(0.0, 0.5)),
        )
        ducts = replace(
            healthy.ducts,
            supply_leak=draw.uniform(0.03, 0.5),
            return_leak=draw.uniform(0.01, 0.3),
        )
        built.append(replace(healthy, unit=unit, ducts=ducts))
        room = draw.uniform(292.0, 305.0)
        around.append(
            Conditions(
                outdoor_temperature=draw.uniform(286.0, 319.0),
                outdoor_humidity_ratio=0.012,
                indoor_temperature=room,
                indoor_humidity_ratio=float(
                    moist_air.humidity_ratio(room, draw.uniform(0.3, 0.7), 101325.0)
                ),
            )
        )
    return built, around
