"""The settled state of an installation under given conditions."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from simulator.plant import newton, stacking
from simulator.plant.case import Case, Settled, chosen_case, prepared
from simulator.plant.conditions import Conditions
from simulator.plant.first_guess import TOLERANCE, first_guess, search_box
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.plant.report import operating_point
from simulator.plant.stubborn import (
    HEAD,
    SUCTION,
    Balances,
    PressureSide,
    cannot_run,
    cannot_shed,
    second_try,
)
from simulator.quantities.values import Array, Mask

__all__ = ["TOLERANCE", "first_guess", "search_box", "settle", "solve", "solve_many"]


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
    residual = Balances(case, count)
    guess = first_guess(case, count) if start is None else start
    outcome = newton.solve(residual, guess, box, tolerance=TOLERANCE, rounds=25)
    cannot = np.zeros((2, count), dtype=bool)
    # Most of what does not settle cannot: ask for the switches first, then try again.
    for row, side, asked in _in_order(case, count):
        stuck = np.flatnonzero(~outcome.converged & ~cannot.any(axis=0) & asked)
        if stuck.size:
            cannot[row, stuck] = cannot_run(chosen_case(case, stuck), stuck.size, box, side)
    worth_trying: Mask = np.asarray(~cannot.any(axis=0))
    outcome = second_try(case, outcome, residual, box, worth_trying)
    left = np.flatnonzero(~outcome.converged & worth_trying)
    if left.size:
        cannot[0, left] = cannot_shed(chosen_case(case, left))
    # A coil that finds no heat is the surer sign, where both could be said.
    for row, side in ((1, SUCTION), (0, HEAD)):
        left = np.flatnonzero(~outcome.converged & worth_trying & ~cannot.any(axis=0))
        if left.size:
            cannot[row, left] = cannot_run(
                chosen_case(case, left), left.size, box, side, is_last=True
            )
    return Settled(
        outcome.unknowns,
        outcome.converged,
        outcome.error,
        cannot[0],
        cannot[1],
        residual.worked_out(outcome.unknowns),
    )


ICED = 0.5  # of an indoor coil; more starves it before it can load the head [-]


def _in_order(case: Case, count: int) -> list[tuple[int, PressureSide, Mask]]:
    """Switches in the order they are asked for, and of which columns.

    First that of the coil outdoors, which weather, dirt and frost wear at; but where ice
    stands on a coil that boils, its own.
    """
    if case.conditions.mode == "heating":
        everywhere = np.ones(count, dtype=bool)
        return [(1, SUCTION, everywhere), (0, HEAD, everywhere)]
    iced = np.broadcast_to(np.asarray(case.installation.unit.indoor_coil.ice) > ICED, count)
    return [(1, SUCTION, iced), (0, HEAD, ~iced), (1, SUCTION, ~iced)]


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
    """What the wiring of the strips and the reversing valve make of the call.

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
    if conditions.mode == "heating":
        # A jumper at the air handler brings strips on with the compressor's own call.
        jumped = installation.controls.strips_with_every_call * conditions.compressor_call
        strips = np.maximum(conditions.auxiliary_call, jumped)[()]
        # Without a reversing valve a call for heat leaves the compressor out.
        call = conditions.compressor_call * installation.unit.reversing_valve.is_fitted
        conditions = replace(conditions, auxiliary_call=strips, compressor_call=call)
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
