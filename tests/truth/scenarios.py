"""Thousands of random installations in random weather: do they settle, and at one root?"""

from dataclasses import dataclass

import numpy as np

from simulator.plant import balance, steady
from simulator.plant import case as cases
from simulator.plant.report import operating_point
from simulator.plant.stacking import stacked
from simulator.quantities.values import Array
from tests.plant.test_random_scenarios import TRIPS, random_conditions, random_installation
from tests.truth.verdict import Verdict, state_of

SOURCE = "project's own bar"
RANGES = (
    "outdoor 55–115 °F, indoor 65–90 °F, 30–70 % RH, charge 60–140 %, airflow 40–130 %, "
    "condenser airflow 40–100 %, restriction, compressor leak, air in the circuit, duct leaks to "
    "50 %, filter, slot, strips, both devices, both motors, four surroundings of the ducts"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Statistics:
    """What came out of a draw; shares of all, residuals of what runs."""

    count: int
    running: int
    tripped: dict[str, int]
    unsolved: int
    worst_residual: float
    restarted: int
    same_root: int

    @property
    def settled_share(self) -> float:
        """Running or tripped by name."""
        return 1.0 - self.unsolved / self.count


def drawn(count: int, seed: int = 20_000) -> Statistics:
    """Settle a random draw, then again from random starts, and compare the roots."""
    chance = np.random.default_rng(seed)
    built = [random_installation(chance) for _ in range(count)]
    around = [random_conditions(chance) for _ in built]
    held = cases.prepared(stacked(built), stacked(around))
    outcome = steady.settle(held, count)
    state = np.asarray(operating_point(held, outcome).state)
    running = state == "running"
    left = np.abs(balance.residuals(outcome.unknowns, held)).max(axis=0)
    again = steady.settle(held, count, start=_elsewhere(held, count, chance))
    both = running & again.converged
    apart = np.abs(again.unknowns - outcome.unknowns)
    scale = np.array([1.0, 1.0, 1.0, 1.0, 1.0, 100.0, 10.0])[:, None]
    return Statistics(
        count=count,
        running=int(running.sum()),
        tripped={name: int((state == name).sum()) for name in TRIPS},
        unsolved=int((~np.isin(state, ["running", *TRIPS])).sum()),
        worst_residual=float(left[running].max()),
        restarted=int(both.sum()),
        same_root=int(((apart / scale).max(axis=0)[both] < 1e-4).sum()),
    )


def _elsewhere(held: cases.Case, count: int, chance: np.random.Generator) -> Array:
    """Starts off the usual guess, evenly: up to 0.3 in ln p and in shares, 0.5 in ln m."""
    spread = np.array([0.3, 0.3, 0.3, 0.3, 0.5, 10.0, 4.0])[:, None]
    start = steady.first_guess(held, count) + spread * chance.uniform(-1, 1, (7, count))
    box = steady.search_box(held)
    return np.clip(start, box.low[:, None] + 1e-3, box.high[:, None] - 1e-3)


def verdicts(found: Statistics) -> list[Verdict]:
    """Three bars."""
    same = found.same_root / max(found.restarted, 1)
    rows = (
        ("settled", "run, or trip by name", "≥ 99.9 %", f"{found.settled_share:.3%}",
         found.settled_share >= 0.999),
        ("residual", "largest imbalance of what runs", "≤ 1e-6", f"{found.worst_residual:.2g}",
         found.worst_residual <= 1e-6),
        ("root", f"same root from random starts, {found.restarted:,} of {found.running:,} settled",
         "≥ 99.9 %", f"{same:.3%}", same >= 0.999),
    )  # fmt: skip
    return [
        Verdict(
            id=name, about=about, source=SOURCE, where=f"{found.count:,} drawn", expected=bar,
            got=got, tolerance="as asked", state=state_of(holds),
        )
        for name, about, bar, got, holds in rows
    ]  # fmt: skip
