"""What every reading still open is worth, in bits a minute."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from simulator.calls.call_file import CallFile
from simulator.calls.repair_terms import LOOKS_LOCKED_OUT, WALK, lock_out_of
from simulator.calls.visit import Visit
from simulator.diagnosis.belief import Standing
from simulator.diagnosis.expected import Expected
from simulator.diagnosis.likelihood import UNSEEN, Take, When, covariance, take_of, variance
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.settling import settles_after
from simulator.instruments.steps import STEPS
from simulator.plant.timeline import SETTLED_AFTER
from simulator.quantities.values import Array

SETTLED = SETTLED_AFTER / 60.0  # in minutes
SWITCHING = 1.0  # in minutes
LIVE, MOST_LIVE = 1e-4, 72  # cells that count: probability of each [-], and how many
NODES = np.array([-np.sqrt(3.0), 0.0, np.sqrt(3.0)])  # Gauss-Hermite of three points [-]
SHARES = np.array([1.0, 4.0, 1.0]) / 6.0
ASSUMED = 1e-12  # of a number where only words can come [-]
# What is worth stopping the system for.
AT_REST = (
    "run_capacitor", "winding_resistance", "duct_leakage", "standing_pressure", "fan_call",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Worth:
    """What one reading would bring.

    Parameters
    ----------
    measurement : str
        Taken with care.
    is_running : bool
        Whether the system must run for it.
    bits : float
        Expected loss of doubt about the set of causes. [-]
    minutes : float
        Walk, preparation, waiting and the take itself, in minutes.
    """

    measurement: str
    is_running: bool
    bits: float
    minutes: float

    @property
    def rate(self) -> float:
        """Bits a minute.

        Returns
        -------
        float
            [-]
        """
        return self.bits / self.minutes


def next_readings(now: Standing, visit: Visit, call: CallFile) -> list[Worth]:
    """Every reading still open, the best a minute first.

    Parameters
    ----------
    now : Standing
        What is believed.
    visit : Visit
        Where the technician stands and what is prepared.
    call : CallFile
        The public part.

    Returns
    -------
    list
    """
    live = np.argsort(-now.cells)[:MOST_LIVE]
    live = _sorted(now.table, live[now.cells[live] > LIVE])
    found = []
    for is_running in (True, False):
        names = [
            name
            for name, item in MEASUREMENTS.items()
            if item.way != "ask"
            and _is_open(name, visit, is_running)
            and (is_running or name in AT_REST)
        ]
        bits = _bits(names, now, live, visit, call, is_running)
        found += [
            Worth(name, is_running, one, minutes_for(name, visit, is_running=is_running))
            for name, one in zip(names, bits, strict=True)
        ]
    return sorted(found, key=lambda worth: -worth.rate)


def _is_open(name: str, visit: Visit, is_running: bool) -> bool:
    """Words do not change while nothing is changed; numbers may be taken again."""
    start = visit.repairs[-1].seq if visit.repairs else -1
    return not any(
        event.reading.measurement == name
        # A look with the power locked out is never taken running.
        and (event.is_running == is_running or name in LOOKS_LOCKED_OUT)
        for event in visit.readings
        if event.seq > start
        and (event.reading.value is None or event.settled >= settles_after(name))
    )


def minutes_for(name: str, visit: Visit, *, is_running: bool) -> float:
    """Site time until a reading stands on the sheet.

    Parameters
    ----------
    name : str
        Of the measurement.
    visit : Visit
        Where the technician stands and what is prepared.
    is_running : bool
        Whether the system must run for it.

    Returns
    -------
    float
        In minutes.
    """
    item = MEASUREMENTS[name]
    minutes, place = item.minutes, visit.place
    for need in item.needs:
        if need not in visit.prepared:
            minutes += STEPS[need].minutes + WALK * (STEPS[need].place != place)
            place = STEPS[need].place
    lock_out = lock_out_of(visit, name)
    if lock_out is not None:
        minutes += lock_out.minutes + WALK * (lock_out.place != place)
        place = lock_out.place
    minutes += WALK * (item.place != place)
    if name in LOOKS_LOCKED_OUT:
        # Whatever runs is stopped for it, and settles again after it.
        return minutes + (SWITCHING + SETTLED) * visit.is_running
    if is_running != visit.is_running:
        # Who stops the system for a test will have to wait again after it.
        return minutes + SWITCHING + (settles_after(name) if is_running else SETTLED)
    if is_running and item.has_number:
        minutes += max(settles_after(name) - (visit.minute - visit.changed_at), 0.0)
    return minutes


def _bits(
    names: Sequence[str],
    now: Standing,
    live: np.ndarray,
    visit: Visit,
    call: CallFile,
    is_running: bool,
) -> list[float]:
    weight = now.cells[live] / now.cells[live].sum()
    groups = _groups(now.table, live)
    kinds = {name: _kinds(name, now.table, live, is_running) for name in names}
    when = When(visit.minute, is_running, 60.0, visit.prepared, "careful", visit.left)
    numeric = [name for name in names if name in now.table.column]
    values = {}
    if numeric:
        takes = [take_of(name, when, now.table, call) for name in numeric]
        mean, spread = _given(takes, now, live)
        for place, name in enumerate(numeric):
            share = kinds[name][-1]
            values[name] = _of_value(mean[place], spread[place], weight * share, groups)
    return [_of_kind(kinds[name], weight, groups) + values.get(name, 0.0) for name in names]


def _groups(table: Expected, live: np.ndarray) -> np.ndarray:
    """Where each set of causes begins among live cells that are sorted by set."""
    sets = [table.listed[place].causes for place in table.owner[live]]
    return np.array([i for i, one in enumerate(sets) if i == 0 or one != sets[i - 1]])


def _sorted(table: Expected, live: np.ndarray) -> np.ndarray:
    """Live cells of one set beside each other."""
    order = {one: place for place, one in enumerate({h.causes: None for h in table.listed})}
    rank = [order[table.listed[place].causes] for place in table.owner[live]]
    return np.asarray(live[np.argsort(rank, kind="stable")])


def _kinds(name: str, table: Expected, live: np.ndarray, is_running: bool) -> Array:
    """Probability of each answer in words and, last, of a number, shape (answers, live)."""
    told = table.words.get((name, is_running))
    if told is None:
        return np.ones((1, live.size))
    rows = np.array([*(share[live] for share in told.words.values()), told.number[live]])
    rows = UNSEEN + (1.0 - 2.0 * UNSEEN) * rows
    if name not in table.column:
        rows[-1] = ASSUMED
    whole: Array = rows / rows.sum(axis=0)
    return whole


def _doubt(parts: Array) -> Array:
    """Entropy of parts that add up to one along the first axis, in bits, [-]."""
    safe = np.maximum(parts, 1e-300)
    found: Array = -(parts * np.log2(safe)).sum(axis=0)
    return found


def _of_kind(kinds: Array, weight: Array, groups: np.ndarray) -> float:
    joint = np.add.reduceat(kinds * weight, groups, axis=1).T
    share = joint.sum(axis=0)
    before = float(_doubt(joint.sum(axis=1)))
    after = float((share * _doubt(joint / np.maximum(share, 1e-300))).sum())
    return max(before - after, 0.0)


def _of_value(mean: Array, spread: Array, weight: Array, groups: np.ndarray) -> float:
    """Loss of doubt by a number, over nodes of every live cell's own spread."""
    whole = weight.sum()
    if whole < 1e-9:
        return 0.0
    part = weight / whole
    nodes = (mean[:, None] + spread[:, None] * NODES).ravel()
    chance = (part[:, None] * SHARES).ravel()
    score = -0.5 * ((nodes[:, None] - mean) / spread) ** 2
    dense = part * np.exp(np.maximum(score, -300.0)) / spread
    joint = np.add.reduceat(dense, groups, axis=1).T
    after = (chance * _doubt(joint / np.maximum(joint.sum(axis=0), 1e-300))).sum()
    before = _doubt(np.add.reduceat(part, groups))
    return float(max(whole * (before - after), 0.0))


def _given(takes: Sequence[Take], now: Standing, live: np.ndarray) -> tuple[Array, Array]:
    """Mean and spread of each take in each live cell, given those on the sheet."""
    fresh = [_cut(one, live) for one in takes]
    mean = np.array([one.mean for one in fresh])
    spread = np.sqrt(np.array([variance(one) for one in fresh]))
    if not now.takes:
        return mean, spread
    old = [_cut(one, live) for one in now.takes]
    among = np.empty((live.size, len(old), len(old)))
    for row, one in enumerate(old):
        for column, other in enumerate(old[: row + 1]):
            same = variance(one) if row == column else covariance(one, other)
            among[:, row, column] = among[:, column, row] = same
    across = _across(fresh, old)
    scale = np.sqrt(np.einsum("cii->ci", among))
    among = among / scale[:, :, None] / scale[:, None, :] + 1e-9 * np.eye(len(old))
    across = across / scale[:, None, :]
    left = np.array([x - one.mean for one, x in zip(old, now.shown, strict=True)]).T / scale
    gain = np.linalg.solve(among, np.swapaxes(across, 1, 2))
    moved = np.einsum("cmn,cn->mc", across, np.linalg.solve(among, left[:, :, None])[:, :, 0])
    less = np.einsum("cmn,cnm->mc", across, gain)
    return mean + moved, np.sqrt(np.maximum(spread**2 - less, (0.02 * spread) ** 2))


def _cut(one: Take, live: np.ndarray) -> Take:
    return Take(one.measurement, one.mean[live], one.loads[live], one.own[live], one.error)


def _across(fresh: Sequence[Take], old: Sequence[Take]) -> Array:
    """Covariances of new takes with old ones, shape (cells, new, old)."""
    found = np.einsum(
        "mck,nck->cmn",
        np.array([one.loads for one in fresh]),
        np.array([one.loads for one in old]),
    )
    product = np.einsum(
        "mc,nc->cmn", np.array([one.mean for one in fresh]), np.array([one.mean for one in old])
    )

    def outer(name: str) -> Array:
        return np.outer(
            [getattr(one.error, name) for one in fresh], [getattr(one.error, name) for one in old]
        )

    tool = np.array([[a.error.tool == b.error.tool for b in old] for a in fresh])
    same = np.array([[a.measurement == b.measurement for b in old] for a in fresh])
    own = np.einsum(
        "mc,nc->cmn", np.array([one.own for one in fresh]), np.array([one.own for one in old])
    )
    shared = outer("drift") + tool * outer("scaled")
    whole: Array = found + product * shared + tool * outer("added") + same * own
    return whole
