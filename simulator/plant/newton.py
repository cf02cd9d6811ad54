"""Batched Newton iteration for small square systems."""

from collections.abc import Callable
from typing import NamedTuple

import numpy as np

from simulator.quantities.values import Array, Index, Mask, held

Residual = Callable[[Array, Index], Array]


class Box(NamedTuple):
    """Bounds, largest steps and difference steps of each unknown, and which may cross zero."""

    low: Array
    high: Array
    step: Array
    difference: Array
    has_two_sides: Mask


class Outcome(NamedTuple):
    """Unknowns of shape (k, n), which converged, largest residuals, rounds taken."""

    unknowns: Array
    converged: Mask
    error: Array
    rounds: int


# A trial step may leave the range of the formulas for air: no number, so a step to shorten.
@np.errstate(invalid="ignore")
def solve(
    residual: Residual, start: Array, box: Box, *, tolerance: float = 1e-8, rounds: int = 60
) -> Outcome:
    """Solve n independent systems of k equations at once.

    Forward differences in one stacked call give the Jacobian. A few columns get a fresh one
    every round, which costs them no more than the value alone; in a large batch Broyden's
    update carries it on while that serves, and a column that stops gaining gets a fresh
    one. Steps are capped, stop at zero for unknowns whose sign switches the physics, and are
    shortened where a step made things worse; columns leave the batch as they converge.

    Parameters
    ----------
    residual : callable
        Takes unknowns of shape (k, m, j) and the j column numbers; returns the same shape.
    start : array
        First guess, shape (k, n). [-]
    box : Box
        Limits, each of shape (k,).
    tolerance : float
        On the largest residual of a column. [-]
    rounds : int
        At most so many. [-]

    Returns
    -------
    Outcome
        Columns that did not converge hold their last guess.

    References
    ----------
    .. [1] Broyden, C. G., "A class of methods for solving nonlinear simultaneous
       equations", Mathematics of Computation 19, 1965: the first update.
    """
    unknowns = held(start, box.low[:, None], box.high[:, None])
    count = start.shape[1]
    error = np.full(count, np.inf)
    columns = np.arange(count)
    current = unknowns.copy()
    value, inverse = _linearised(residual, current, columns, box)
    used = 0
    for used in range(1, rounds + 1):  # noqa: B007 - reported below
        error[columns] = _norm(value)
        unknowns[:, columns] = current
        open_ones = error[columns] > tolerance
        if not open_ones.all():
            columns, inverse = columns[open_ones], inverse[open_ones]
            current, value = current[:, open_ones], value[:, open_ones]
        if not columns.size:
            break
        step = _capped(-_product(inverse, _finite(value)), box)
        if columns.size <= FEW:
            current, value, inverse = _descend_afresh(residual, current, value, step, columns, box)
            continue
        moved, after, crossed = _descend(residual, current, value, step, columns, box)
        stale = crossed | (_norm(after) > FRESH_BEYOND * _norm(value))
        inverse = _updated(inverse, moved - current, after - value)
        current, value = moved, after
        if stale.any():
            index = np.flatnonzero(stale)
            _, inverse[index] = _linearised(residual, current[:, index], columns[index], box)
    return Outcome(unknowns, error <= tolerance, error, used)


# A step that leaves more than this of the imbalance has outlived its Jacobian.
FRESH_BEYOND = 0.35
# So few columns cost the same whether one point or all points of a Jacobian are worked out.
FEW = 12
WORSE = 1.5  # growth of the imbalance that shortens a step [-]
SHORTENED = 0.4  # what is left of such a step [-]


def _norm(value: Array) -> Array:
    """Largest imbalance of each column; 1e9 where it is not a number."""
    worst: Array = np.fmin(np.abs(value).max(axis=0), 1e9)
    return worst


def _finite(value: Array, most: float | None = None) -> Array:
    """The same with numbers for what is none; most often all are."""
    if np.isfinite(value).all():
        return value
    low = None if most is None else -most
    found: Array = np.nan_to_num(value, posinf=most, neginf=low)
    return found


def _product(inverse: Array, value: Array) -> Array:
    """Inverse Jacobians of shape (n, k, k) on values of shape (k, n)."""
    found: Array = (inverse @ value.T[:, :, None])[:, :, 0].T
    return found


def _linearised(
    residual: Residual, current: Array, columns: Index, box: Box
) -> tuple[Array, Array]:
    """Value here and inverse of a forward-difference Jacobian, in one stacked call."""
    count = current.shape[0]
    sign = np.where((current < 0.0) & box.has_two_sides[:, None], -1.0, 1.0)
    move = box.difference[:, None] * sign
    beside = np.repeat(current[:, None, :], count + 1, axis=1)
    diagonal = np.arange(count)
    beside[diagonal, diagonal, :] += move
    values = residual(beside, columns)
    value = values[:, count, :]
    slope = (values[:, :count, :] - value[:, None, :]) / move[None, :, :]
    matrix = _finite(slope.transpose(2, 0, 1), most=1e9)
    inverse: Array = np.asarray(np.linalg.inv(matrix + 1e-12 * np.eye(count)), dtype=np.float64)
    return value, inverse


def _updated(inverse: Array, step: Array, gained: Array) -> Array:
    """Broyden's update of the inverse where it is well defined."""
    dx, df = step.T[:, :, None], _finite(gained).T[:, :, None]
    mapped = inverse @ df
    row = np.swapaxes(dx, 1, 2) @ inverse
    scale = np.swapaxes(dx, 1, 2) @ mapped
    length = (dx * dx).sum(axis=1, keepdims=True)
    sound = np.abs(scale) > 1e-3 * length
    changed = inverse + (dx - mapped) @ row / np.where(sound, scale, 1.0)
    found: Array = np.asarray(np.where(sound, changed, inverse), dtype=np.float64)
    return found


def _capped(step: Array, box: Box) -> Array:
    excess = np.max(np.abs(step) / box.step[:, None], axis=0)
    capped: Array = step / np.maximum(excess, 1.0)
    return capped


def _moved(current: Array, step: Array, box: Box) -> tuple[Array, Mask]:
    """Step taken inside the box; a change of sign first lands just across zero."""
    moved = held(current + step, box.low[:, None], box.high[:, None])
    crosses = (current * moved < 0.0) & box.has_two_sides[:, None]
    # Landing beyond zero by more than a difference step would linearise the wrong side.
    near = 2.0 * box.difference[:, None]
    crosses &= np.abs(current) > near
    landed: Array = np.where(crosses, np.sign(moved) * near, moved)
    across: Mask = np.asarray(crosses.any(axis=0))
    return landed, across


def _descend_afresh(
    residual: Residual, current: Array, value: Array, step: Array, columns: Index, box: Box
) -> tuple[Array, Array, Array]:
    """As ``_descend``, with the Jacobian at the new place."""
    limit = WORSE * _norm(value)
    moved, _ = _moved(current, step, box)
    after, inverse = _linearised(residual, moved, columns, box)
    for _ in range(5):
        index = np.flatnonzero(_norm(after) > limit)
        if not index.size:
            break
        step[:, index] *= SHORTENED
        moved[:, index], _ = _moved(current[:, index], step[:, index], box)
        after[:, index], inverse[index] = _linearised(
            residual, moved[:, index], columns[index], box
        )
    return moved, after, inverse


def _descend(
    residual: Residual, current: Array, value: Array, step: Array, columns: Index, box: Box
) -> tuple[Array, Array, Mask]:
    """Take the step, shortening it where it made the residual much worse."""
    before = _norm(value)
    moved, crossed = _moved(current, step, box)
    after = residual(moved[:, None, :], columns)[:, 0, :]
    for _ in range(5):
        worse = _norm(after) > WORSE * before
        if not worse.any():
            break
        step = np.where(worse, SHORTENED * step, step)
        index = np.flatnonzero(worse)
        moved[:, index], crossed[index] = _moved(current[:, index], step[:, index], box)
        after[:, index] = residual(moved[:, None, index], columns[index])[:, 0, :]
    return moved, after, crossed
