"""The settled state of an installation under given conditions."""

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np

from simulator.plant import balance, newton, stacking
from simulator.plant.case import Case, Settled, chosen_case, prepared
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.plant.report import operating_point
from simulator.quantities.values import Array, Index, Mask

TOLERANCE = 1e-7  # on the largest imbalance, of the unit's own size


class PressureSide(NamedTuple):
    """One side of the circuit: its unknown, its coil's balance, and which side it is."""

    unknown: int
    balance: int
    is_high: bool


HEAD = PressureSide(unknown=1, balance=2, is_high=True)
SUCTION = PressureSide(unknown=0, balance=3, is_high=False)


def search_box(case: Case) -> newton.Box:
    """Bounds and steps of the seven unknowns.

    Parameters
    ----------
    case : Case
        Gives the refrigerant's table limits and the rated flow.

    Returns
    -------
    newton.Box
        Each of shape (7,).
    """
    fluid = case.fluid
    flow = float(np.log(np.mean(case.installation.unit.rated_flow)))
    low, high = np.log(fluid.lowest_pressure), np.log(fluid.highest_pressure)
    return newton.Box(
        low=np.array([low + 0.05, low + 0.5, -0.95, -0.98, flow - 4.0, 250.0, 0.0]),
        high=np.array([high, high, 0.97, 0.95, flow + 1.2, 360.0, 60.0]),
        step=np.array([0.25, 0.2, 0.3, 0.25, 0.4, 15.0, 8.0]),
        difference=np.array([1e-6, 1e-6, 1e-6, 1e-6, 1e-6, 1e-5, 1e-5]),
        has_two_sides=np.array([False, False, True, True, False, False, False]),
    )


def first_guess(case: Case, count: int) -> Array:
    """Where to begin: a healthy unit a fixed distance from air temperatures.

    Parameters
    ----------
    case : Case
        Weather and rooms.
    count : int
        Size of the batch.

    Returns
    -------
    array
        Shape (7, count). [-]
    """
    conditions, unit, fluid = case.conditions, case.installation.unit, case.fluid
    inside, outside = (
        np.asarray(conditions.indoor_temperature),
        np.asarray(conditions.outdoor_temperature),
    )
    full = np.asarray(unit.charge) / unit.plate_charge
    flow = np.asarray(unit.rated_flow) * (1.0 - 0.5 * np.asarray(unit.compressor.leak_fraction))
    if conditions.mode == "heating":
        low = fluid.dew_pressure(outside - 5.5)
        # The condenser sheds what the cold evaporator can bring: less lift in the cold,
        # and less still where an orifice floods the coil.
        colder, valve = outside - 281.5, np.asarray(unit.heating_metering.is_thermostatic)
        condensing = inside + np.clip(20.0 + (0.55 - 0.3 * valve) * colder, 8.0, 26.0)
        dry = valve * 0.09 + (1.0 - valve) * np.clip(0.08 + 0.02 * colder, -0.35, 0.3)
        flow = flow * np.clip(1.0 + 0.022 * (outside - 290.0), 0.25, 1.3)
    else:
        low = fluid.dew_pressure(inside - 18.4)
        dry = np.asarray(0.145)
        condensing = outside + 10.2 / (1.0 - 0.8 * np.asarray(unit.outdoor_coil.blocked_fraction))
    high = np.minimum(fluid.bubble_pressure(condensing), fluid.highest_pressure * 0.9)
    rows = [
        np.log(low),
        np.log(high),
        dry + 1.2 * np.clip(0.85 - full, 0.0, 0.3),
        np.clip(0.115 + 0.7 * (full - 1.0), -0.2, 0.4),
        np.log(flow) - 0.35 * np.clip(1.0 - full, 0.0, 0.4),
        conditions.indoor_temperature,
        np.asarray(conditions.indoor_humidity_ratio) * balance.GRAM,
    ]
    return np.array([np.broadcast_to(row, count) for row in rows], dtype=float)


def settle(case: Case, count: int, start: Array | None = None) -> Settled:
    """Solve a batch of cases.

    Parameters
    ----------
    case : Case
        Floats or arrays of shape (count,).
    count : int
        Size of the batch.
    start : array, optional
        First guess, shape (7, count). [-]

    Returns
    -------
    Settled
        The seven unknowns and what became of each column.
    """
    box = search_box(case)
    residual = _residual(case, count)
    guess = first_guess(case, count) if start is None else start
    outcome = newton.solve(residual, guess, box, tolerance=TOLERANCE, rounds=25)
    cannot = np.zeros((2, count), dtype=bool)
    for row, side in enumerate((HEAD, SUCTION)):
        # Most of what does not settle cannot: ask for the switches first, then try again.
        stuck = np.flatnonzero(~outcome.converged & ~cannot.any(axis=0))
        if stuck.size:
            cannot[row, stuck] = _cannot_run(chosen_case(case, stuck), stuck.size, box, side)
    worth_trying: Mask = np.asarray(~cannot.any(axis=0))
    outcome = _second_try(case, outcome, residual, box, worth_trying)
    return Settled(outcome.unknowns, outcome.converged, outcome.error, cannot[0], cannot[1])


def _residual(case: Case, count: int) -> newton.Residual:
    """Balances of some columns; the choice of columns is kept as long as it holds."""
    latest: tuple[Index, Case] = (np.arange(count), case)

    def residual(unknowns: Array, columns: Index) -> Array:
        nonlocal latest
        if not np.array_equal(latest[0], columns):
            latest = (columns, chosen_case(case, columns))
        return balance.residuals(unknowns, latest[1])

    return residual


def _cannot_run(case: Case, count: int, box: newton.Box, side: PressureSide) -> Mask:
    """Whether a coil falls short even at the pressure where its switch opens.

    Holds that pressure and drops the coil's own heat balance: where the outdoor coil cannot
    shed its heat, or is full of liquid, the head would rise further; where the boiling coil
    cannot find its heat, suction would fall further; and the switch opens.
    """
    unit = case.installation.unit
    limit = (
        unit.high_cut_out - unit.outdoor_coil.pressure_drop if side.is_high else unit.low_cut_out
    )
    level = np.broadcast_to(np.log(limit), count)
    plain = _residual(case, count)

    def held(unknowns: Array, columns: Index) -> Array:
        value = plain(unknowns, columns)
        value[side.balance] = unknowns[side.unknown] - level[columns]
        return value

    start = first_guess(case, count)
    start[side.unknown] = level
    outcome = newton.solve(held, start, box, tolerance=TOLERANCE, rounds=25)
    short = balance.residuals(outcome.unknowns, case)[side.balance] < 0.0
    full = outcome.unknowns[3] >= box.high[3] - 1e-6
    beyond: Mask = (outcome.converged & short) | (full & side.is_high)
    return beyond


def _of_columns(residual: newton.Residual, columns: Index) -> newton.Residual:
    """The residual of a part of the batch, numbered from zero."""
    return lambda unknowns, inner: residual(unknowns, columns[inner])


def _second_try(
    case: Case,
    outcome: newton.Outcome,
    residual: newton.Residual,
    box: newton.Box,
    worth_trying: Mask,
) -> newton.Outcome:
    """Try the stubborn columns again from other places."""
    unknowns, converged, error = (
        outcome.unknowns.copy(),
        outcome.converged.copy(),
        outcome.error.copy(),
    )
    count = unknowns.shape[1]
    for shift in (
        (-0.15, 0.1, 0.25, -0.1, -0.2),
        (0.05, 0.05, 0.02, 0.2, 0.0),
        (0.1, 0.25, -0.05, 0.1, 0.1),
        (-0.5, -0.05, 0.5, -0.3, -0.7),
        (0.0, -0.15, -0.4, -0.25, 0.0),
        (0.1, -0.1, 0.5, -0.1, -0.4),
    ):
        columns = np.flatnonzero(~converged & worth_trying)
        if not columns.size:
            break
        start = first_guess(case, count)[:, columns]
        start[:5] += np.array(shift)[:, None]
        again = newton.solve(_of_columns(residual, columns), start, box, tolerance=TOLERANCE)
        unknowns[:, columns] = again.unknowns
        error[columns] = again.error
        converged[columns] = again.converged
    return newton.Outcome(unknowns, converged, error, outcome.rounds)


def solve_many(
    installations: Sequence[Installation], conditions: Sequence[Conditions]
) -> OperatingPoint:
    """Settled states of a batch.

    Parameters
    ----------
    installations : sequence
        Any mix of modes and refrigerants.
    conditions : sequence
        As many.

    Returns
    -------
    OperatingPoint
        Arrays of shape (n,); ``state`` an array of words.
    """
    turned = [actual(one, around) for one, around in zip(installations, conditions, strict=True)]
    kinds = [
        (around.mode, one.unit.refrigerant)
        for one, around in zip(installations, turned, strict=True)
    ]
    parts = []
    for kind in dict.fromkeys(kinds):
        index = [place for place, other in enumerate(kinds) if other == kind]
        case = prepared(
            stacking.stacked([installations[place] for place in index]),
            stacking.stacked([turned[place] for place in index]),
        )
        parts.append((index, operating_point(case, settle(case, len(index)))))
    return parts[0][1] if len(parts) == 1 else stacking.merged(parts)


def actual(installation: Installation, conditions: Conditions) -> Conditions:
    """What the reversing valve makes of the call.

    Parameters
    ----------
    installation : Installation
        Floats.
    conditions : Conditions
        With the mode called for.

    Returns
    -------
    Conditions
        With the mode that the circuit runs in.
    """
    if not installation.unit.reversing_valve.is_stuck:
        return conditions
    other = "heating" if conditions.mode == "cooling" else "cooling"
    return replace(conditions, mode=other)


def solve(installation: Installation, conditions: Conditions) -> OperatingPoint:
    """Settled state of one installation.

    Parameters
    ----------
    installation : Installation
        As it stands, faults and repairs applied.
    conditions : Conditions
        Weather, rooms, supply.

    Returns
    -------
    OperatingPoint
        Floats. ``state`` tells a trip by name; a trip's readings are those of a unit at
        rest with the blower running.
    """
    return stacking.chosen(solve_many([installation], [conditions]), 0)
