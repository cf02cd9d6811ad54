"""What does not settle at once: switches that must open, and other ways to a solution."""

from dataclasses import replace
from typing import Any, NamedTuple

import numpy as np

from simulator.plant import balance, newton
from simulator.plant.balance import Evaluation
from simulator.plant.case import Case, chosen_case, high_limit
from simulator.plant.first_guess import TOLERANCE, first_guess
from simulator.plant.fixed_air import fixed_air
from simulator.properties import moist_air
from simulator.quantities.values import Array, Index, Mask

LEAST_WORK = 0.2  # of a compressor at rating, over its nominal capacity; common practice [-]


class PressureSide(NamedTuple):
    """One side of the circuit: its unknown, its coil's balance, and which side it is."""

    unknown: int
    balance: int
    is_high: bool


HEAD = PressureSide(unknown=1, balance=2, is_high=True)
SUCTION = PressureSide(unknown=0, balance=3, is_high=False)


class Balances:
    """Balances of some columns, for ``newton.solve``.

    Parameters
    ----------
    case : Case
        The whole batch.
    count : int
        Its size.
    """

    def __init__(self, case: Case, count: int) -> None:
        self._count = count
        # The choice of columns is kept as long as it holds.
        self._whole = self._latest = (np.arange(count), case, fixed_air(case))
        self._last: tuple[Array, Evaluation] | None = None

    def __call__(self, unknowns: Array, columns: Index) -> Array:
        """Imbalances.

        Parameters
        ----------
        unknowns : array
            Shape (7, m, j). [-]
        columns : array
            Which j of the batch. [-]

        Returns
        -------
        array
            Of the same shape. [-]
        """
        # Columns come without repeats, in order: as many as there are is all of them.
        if columns.size == self._count:
            self._latest = self._whole
        elif not np.array_equal(self._latest[0], columns):
            part = chosen_case(self._whole[1], columns)
            self._latest = (columns, part, fixed_air(part))
        _, case, fixed = self._latest
        done = balance.evaluate(unknowns, case, fixed)
        # A batch would keep much for the little it saves.
        self._last = (unknowns, done) if self._count == 1 else None
        return balance.imbalances(unknowns, case, done)

    def worked_out(self, unknowns: Array) -> Evaluation | None:
        """The evaluation at a solution of one column, where it was the last that was asked for.

        Parameters
        ----------
        unknowns : array
            Shape (7, 1). [-]

        Returns
        -------
        Evaluation or None
            As ``balance.evaluate`` gives it.
        """
        if self._last is None or not np.array_equal(self._last[0][:, -1], unknowns):
            return None
        found: Evaluation = _last_of(self._last[1])
        return found


def _last_of(item: Any) -> Any:
    """The last of several points that were worked out at once."""
    if isinstance(item, tuple):
        return type(item)._make(map(_last_of, item))  # type: ignore[attr-defined]
    return item[-1] if isinstance(item, np.ndarray) and item.ndim == 2 else item


OTHER_PLACES = tuple(
    np.array(shift)
    for shift in (
        (-0.15, 0.1, 0.25, -0.1, -0.2),
        (0.05, 0.05, 0.02, 0.2, 0.0),
        (0.1, 0.25, -0.05, 0.1, 0.1),
        (-0.5, -0.05, 0.5, -0.3, -0.7),
        (0.0, -0.15, -0.4, -0.25, 0.0),
        (0.1, -0.1, 0.5, -0.1, -0.4),
    )
)
"""Added to the first guess of the first five unknowns, one try each."""


# What does not settle may end where the formulas for air give no number.
@np.errstate(invalid="ignore")
def cannot_run(
    case: Case, count: int, box: newton.Box, side: PressureSide, *, is_last: bool = False
) -> Mask:
    """Whether a coil falls short even at the pressure where its switch opens.

    Holds that pressure and drops the coil's own heat balance: where the outdoor coil cannot
    shed its heat, or is full of liquid, the head would rise further; where the boiling coil
    cannot find its heat, suction would fall further; and the switch opens.

    Parameters
    ----------
    case : Case
        What did not settle.
    count : int
        How many.
    box : Box
        Bounds of the search.
    side : PressureSide
        Which switch.
    is_last : bool
        Whether to look from other places too, and to believe only what settles there.

    Returns
    -------
    array
        Of truth values, shape (count,).
    """
    unit = case.installation.unit
    limit = high_limit(case) - unit.outdoor_coil.pressure_drop if side.is_high else unit.low_cut_out
    level = np.broadcast_to(np.log(limit), count)
    plain = Balances(case, count)

    def held(unknowns: Array, columns: Index) -> Array:
        value = plain(unknowns, columns)
        value[side.balance] = unknowns[side.unknown] - level[columns]
        return value

    beyond: Mask = np.zeros(count, dtype=bool)
    for shift in (np.zeros(5), *OTHER_PLACES) if is_last else (np.zeros(5),):
        start = first_guess(case, count)
        start[:5] += shift[:, None]
        start[side.unknown] = level
        outcome = newton.solve(held, start, box, tolerance=TOLERANCE, rounds=25)
        short = balance.residuals(outcome.unknowns, case)[side.balance] < 0.0
        full = outcome.unknowns[3] >= box.high[3] - 1e-6
        sure = outcome.converged | (not is_last)
        beyond |= (outcome.converged & short) | (full & side.is_high & sure)
        if beyond.all():
            break
    return beyond


def cannot_shed(case: Case) -> Mask:
    """Whether the air at the condensing coil cannot even carry off the compressor's own work.

    Hardly any passes a standing fan, or an iced coil that heat is called to: at the head where
    the switch opens all of it, warmed to the condensing temperature, takes less than the
    compressor does at rating, and the head rises on.

    Parameters
    ----------
    case : Case
        What did not settle.

    Returns
    -------
    array
        Of truth values.
    """
    conditions = case.conditions
    if conditions.mode == "heating":
        air, moved = conditions.indoor_temperature, case.path.mass_flow
    else:
        air, moved = conditions.outdoor_temperature, fixed_air(case).outdoors.air.mass_flow
    top = case.fluid.dew_temperature(high_limit(case))
    most = moved * moist_air.DRY_HEAT_CAPACITY * (top - air)
    unit = case.installation.unit
    found: Mask = np.asarray(most < LEAST_WORK * np.asarray(unit.nominal_capacity))
    return found


def _of_columns(residual: newton.Residual, columns: Index) -> newton.Residual:
    """The residual of a part of the batch, numbered from zero."""
    return lambda unknowns, inner: residual(unknowns, columns[inner])


def second_try(
    case: Case,
    outcome: newton.Outcome,
    residual: newton.Residual,
    box: newton.Box,
    worth_trying: Mask,
) -> newton.Outcome:
    """Try the stubborn columns again from other places, last from milder weather.

    Parameters
    ----------
    case : Case
        The whole batch.
    outcome : Outcome
        So far.
    residual : callable
        Balances of the whole batch.
    box : Box
        Bounds of the search.
    worth_trying : array
        Which columns, shape (count,).

    Returns
    -------
    Outcome
        With more columns converged, or the same.
    """
    unknowns, converged, error = (
        outcome.unknowns.copy(),
        outcome.converged.copy(),
        outcome.error.copy(),
    )
    count = unknowns.shape[1]
    for shift in OTHER_PLACES:
        columns = np.flatnonzero(~converged & worth_trying)
        if not columns.size:
            break
        start = first_guess(case, count)[:, columns]
        start[:5] += shift[:, None]
        again = newton.solve(_of_columns(residual, columns), start, box, tolerance=TOLERANCE)
        unknowns[:, columns] = again.unknowns
        error[columns] = again.error
        converged[columns] = again.converged
    columns = np.flatnonzero(~converged & worth_trying)
    if columns.size:
        last = _from_mild_weather(chosen_case(case, columns), columns.size, box)
        unknowns[:, columns] = last.unknowns
        error[columns] = last.error
        converged[columns] = last.converged
    return newton.Outcome(unknowns, converged, error, outcome.rounds)


MILD = {"cooling": 298.0, "heating": 285.0}  # outdoors, where nearly everything settles [K]


def _from_mild_weather(case: Case, count: int, box: newton.Box) -> newton.Outcome:
    """Settle in mild weather, then walk to the weather there is."""
    conditions = case.conditions
    mild = MILD[conditions.mode]
    outcome = newton.Outcome(
        first_guess(case, count), np.zeros(count, dtype=bool), np.zeros(count), 0
    )
    for share in (0.0, 0.25, 0.5, 0.75, 0.9, 1.0):
        there = mild + share * (np.asarray(conditions.outdoor_temperature) - mild)
        now = case._replace(conditions=replace(conditions, outdoor_temperature=there))
        start = first_guess(now, count) if share == 0.0 else outcome.unknowns
        outcome = newton.solve(Balances(now, count), start, box, tolerance=TOLERANCE, rounds=25)
    return outcome
