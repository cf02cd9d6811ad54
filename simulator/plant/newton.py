"""Batched Newton iteration for small square systems."""

from collections.abc import Callable
from typing import NamedTuple

import numpy as np

from simulator.quantities.values import Array, Index, Mask

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


def solve(
    residual: Residual, start: Array, box: Box, *, tolerance: float = 1e-8, rounds: int = 60
) -> Outcome:
    """Solve n independent systems of k equations at once.

    Forward differences in one stacked call, capped steps, a stop at zero for unknowns whose
    sign switches the physics, halving where a step made things worse; columns leave the
    batch as they converge.

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
    """
    unknowns = np.clip(start, box.low[:, None], box.high[:, None])
    columns = np.arange(start.shape[1])
    error = np.full(start.shape[1], np.inf)
    current = unknowns.copy()
    value = residual(current[:, None, :], columns)[:, 0, :]
    used = 0
    for used in range(1, rounds + 1):  # noqa: B007 - reported below
        error[columns] = _norm(value)
        unknowns[:, columns] = current
        open_ones = error[columns] > tolerance
        if not open_ones.all():
            columns = columns[open_ones]
            current, value = current[:, open_ones], value[:, open_ones]
        if not columns.size:
            break
        step = _step(residual, current, value, columns, box)
        current, value = _descend(residual, current, value, step, columns, box)
    return Outcome(unknowns, error <= tolerance, error, used)


def _norm(value: Array) -> Array:
    worst: Array = np.nan_to_num(np.abs(value), nan=1e9, posinf=1e9).max(axis=0)
    return worst


def _step(residual: Residual, current: Array, value: Array, columns: Index, box: Box) -> Array:
    """Newton step from a forward-difference Jacobian, capped."""
    count = current.shape[0]
    sign = np.where((current < 0.0) & box.has_two_sides[:, None], -1.0, 1.0)
    move = box.difference[:, None] * sign
    beside = np.repeat(current[:, None, :], count, axis=1)
    diagonal = np.arange(count)
    beside[diagonal, diagonal, :] += move
    slope = (residual(beside, columns) - value[:, None, :]) / move[None, :, :]
    matrix: Array = np.nan_to_num(np.moveaxis(slope, 2, 0), posinf=1e9, neginf=-1e9)
    matrix = matrix + 1e-12 * np.eye(count)
    right = -np.nan_to_num(value).T[:, :, None]
    step = np.linalg.solve(matrix, right)[:, :, 0].T
    excess = np.max(np.abs(step) / box.step[:, None], axis=0)
    capped: Array = step / np.maximum(excess, 1.0)
    return capped


def _moved(current: Array, step: Array, box: Box) -> Array:
    """Step taken inside the box; a change of sign first lands just across zero."""
    moved = np.clip(current + step, box.low[:, None], box.high[:, None])
    crosses = (current * moved < 0.0) & box.has_two_sides[:, None]
    # Landing beyond zero by more than a difference step would linearise the wrong side.
    near = 2.0 * box.difference[:, None]
    crosses &= np.abs(current) > near
    landed: Array = np.where(crosses, np.sign(moved) * near, moved)
    return landed


def _descend(
    residual: Residual, current: Array, value: Array, step: Array, columns: Index, box: Box
) -> tuple[Array, Array]:
    """Take the step, halving it where it made the residual much worse."""
    before = _norm(value)
    moved = _moved(current, step, box)
    after = residual(moved[:, None, :], columns)[:, 0, :]
    for _ in range(5):
        worse = _norm(after) > 1.5 * before
        if not worse.any():
            break
        step = np.where(worse, 0.4 * step, step)
        index = np.flatnonzero(worse)
        moved[:, index] = _moved(current[:, index], step[:, index], box)
        after[:, index] = residual(moved[:, None, index], columns[index])[:, 0, :]
    return moved, after
