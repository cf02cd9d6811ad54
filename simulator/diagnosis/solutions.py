"""The plant of every hypothesis over the same draws, solved in one batch."""

from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np

from simulator.diagnosis.hypotheses import Hypothesis, severities
from simulator.diagnosis.scatter import NAMES, Around, draws, scattered
from simulator.faults._base import FaultKind
from simulator.faults._catalogue import discover
from simulator.plant import newton, stacking, standing, steady
from simulator.plant.case import Case, Settled, chosen_case, prepared
from simulator.plant.first_guess import TOLERANCE, first_guess, search_box
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.plant.report import operating_point
from simulator.plant.stubborn import HEAD, SUCTION, Balances, cannot_run
from simulator.quantities.values import Array

SIZES = 2  # faults a hypothesis may hold at most
DRAWS = 24  # of each hypothesis, so that all together are about 10,000
SEED = 20
ROUNDS = 14  # what has not settled by then hardly does [-]
TRIED_ON = 4  # columns of a hypothesis that has none [-]


@dataclass(frozen=True, slots=True, eq=False)
class Solutions:
    """What every hypothesis does at every draw.

    Parameters
    ----------
    drawn : array
        Scatter and sizes, of zero mean and unit variance, shape (draws, 14). [-]
    owner : array
        Number of each column's hypothesis. [-]
    draw : array
        Number of each column's draw. [-]
    installation : Installation
        Numbers or arrays with one value a column.
    running, resting : OperatingPoint
        Called on for long; off for long. Arrays with one value a column.
    pairs : frozenset
        Numbers of the hypotheses of two causes.
    """

    drawn: Array
    owner: np.ndarray
    draw: np.ndarray
    installation: Installation
    running: OperatingPoint
    resting: OperatingPoint
    pairs: frozenset[int]


def worsened(installation: Installation, fault: FaultKind, size: Array) -> Installation:
    """A batch of installations with a fault of many sizes.

    Parameters
    ----------
    installation : Installation
        Numbers or arrays of shape (n,).
    fault : FaultKind
        Which.
    size : array
        In SI of its own measure, shape (n,). [-]

    Returns
    -------
    Installation
    """
    if np.ptp(size) == 0.0:
        return fault.apply(installation, float(size[0]))
    try:
        return fault.apply(installation, size)  # type: ignore[arg-type]
    except ValueError:
        # Some ask first whether there is anything to change.
        return stacking.stacked(
            [fault.apply(stacking.chosen(installation, i), float(x)) for i, x in enumerate(size)]
        )


def solutions(
    around: Around, listed: tuple[Hypothesis, ...], *, count: int = DRAWS, seed: int = SEED
) -> Solutions:
    """Solve the plants of all hypotheses.

    Parameters
    ----------
    around : Around
        The nominal house and today's conditions.
    listed : tuple
        Hypotheses.
    count : int
        Draws of each. [-]
    seed : int
        Of the draws.

    Returns
    -------
    Solutions
        Columns that did not settle are left out.
    """
    drawn = draws(count, len(NAMES) + SIZES, seed)
    base, catalogue = scattered(around, drawn[:, : len(NAMES)]), discover()
    built = []
    for one in listed:
        made = base.installation
        for code, size in zip(one.causes, severities(one, drawn[:, len(NAMES) :]), strict=True):
            made = worsened(made, catalogue[code], size)
        built.append(made)
    turned = [steady.actual(made, base.conditions) for made in built]
    kinds = [(held.mode, made.unit.refrigerant) for held, made in zip(turned, built, strict=True)]
    parts: list[tuple[Any, ...]] = []
    for kind in dict.fromkeys(kinds):
        index = [place for place, other in enumerate(kinds) if other == kind]
        lengths = [count] * len(index)
        made = stacking.joined([built[place] for place in index], lengths)
        held = stacking.joined([turned[place] for place in index], lengths)
        case = prepared(made, held)
        point = operating_point(case, _settled(case, len(index), count))
        columns = np.flatnonzero(np.asarray(point.state) != "no_solution")
        rest = _at_rest(case)
        owner = np.array(index)[columns // count]
        chosen = (stacking.chosen(item, columns) for item in (made, point, rest))
        parts.append((owner, columns % count, *chosen))
    pairs = frozenset(place for place, one in enumerate(listed) if len(one.causes) > 1)
    return _merged(drawn, parts, pairs)


def _settled(case: Case, listed: int, count: int) -> Settled:
    """Most settle at once or trip; the stubborn few are left out.

    A hypothesis that would be left without a column has some of its own tried on.
    """
    whole = listed * count
    box, residual = search_box(case), Balances(case, whole)
    outcome = newton.solve(
        residual, first_guess(case, whole), box, tolerance=TOLERANCE, rounds=ROUNDS
    )
    cannot = np.zeros((2, whole), dtype=bool)
    for row, side in enumerate((HEAD, SUCTION)):
        stuck = np.flatnonzero(~outcome.converged & ~cannot.any(axis=0))
        if stuck.size:
            cannot[row, stuck] = cannot_run(chosen_case(case, stuck), stuck.size, box, side)
    settled = Settled(outcome.unknowns, outcome.converged, outcome.error, cannot[0], cannot[1])
    known = (settled.converged | cannot.any(axis=0)).reshape(listed, count)
    lost = np.flatnonzero(~known.any(axis=1))
    if lost.size:
        tried = (lost[:, None] * count + np.arange(TRIED_ON)).ravel()
        again = steady.settle(chosen_case(case, tried), tried.size)
        for kept, found in zip(settled, again, strict=True):
            kept[..., tried] = found
    return settled


def _at_rest(case: Case) -> OperatingPoint:
    """The same batch, off for long."""
    count = np.size(case.path.airflow)
    shaped: dict[str, Any] = {
        name: tuple(np.broadcast_to(x, count) for x in value)
        if isinstance(value, tuple)
        else np.broadcast_to(np.asarray(value, dtype=float), count)
        for name, value in standing.values(case, blower_on=False).items()
    }
    shaped |= {"state": np.full(count, "off"), "mode": np.full(count, case.conditions.mode)}
    return OperatingPoint(**shaped)


def _merged(drawn: Array, parts: list[tuple[Any, ...]], pairs: frozenset[int]) -> Solutions:
    """One batch again; what differs in words is kept apart by its owner."""
    ends = np.cumsum([0, *(len(part[0]) for part in parts)])
    index = [range(low, high) for low, high in pairwise(ends)]

    def together(place: int) -> Any:
        return stacking.merged([(at, part[place]) for at, part in zip(index, parts, strict=True)])

    return Solutions(
        drawn=drawn,
        owner=np.concatenate([part[0] for part in parts]),
        draw=np.concatenate([part[1] for part in parts]),
        installation=stacking.joined([part[2] for part in parts], [len(part[0]) for part in parts]),
        running=together(3),
        resting=together(4),
        pairs=pairs,
    )
