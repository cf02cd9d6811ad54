"""Fixed-orifice superheat over weather against the charging rule (3 WB - 80 - DB) / 2.

The rule is common practice; nothing in the plant knows it. Bars: correlation 0.93, 5 °F rms,
70 % of the cells within 5 °F, over the cells whose target is 5 °F or more, below which the
charging table has no entry.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from simulator.plant import steady
from simulator.plant.charging_chart import LOWEST_TARGET, target_superheat
from simulator.quantities.values import Array
from tests.plant.stand import fahrenheit, weather
from tests.truth.benches import Bench
from tests.truth.verdict import Verdict, state_of

WET_BULBS = tuple(range(55, 77))
OUTDOORS = tuple(range(65, 116, 5))
BARS = {"correlation": 0.93, "rms": 5.0, "within 5 °F": 0.70}
SOURCE = "common practice charging rule (3·WB − 80 − DB)/2"


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleGrid:
    """Targets and superheats in °F over wet bulb (rows) and outdoor temperature (columns)."""

    target: Array
    superheat: Array

    @property
    def pairs(self) -> tuple[Array, Array]:
        """Target and found where the table has an entry."""
        covered = self.target >= LOWEST_TARGET * 1.8 - 1e-9
        return self.target[covered], self.superheat[covered]

    @property
    def correlation(self) -> float:
        """Between target and found."""
        return float(np.corrcoef(*self.pairs)[0, 1])

    @property
    def rms(self) -> float:
        """Of found less target. [°F]"""
        target, found = self.pairs
        return float(np.sqrt(np.mean((found - target) ** 2)))

    @property
    def share_close(self) -> float:
        """Part of the cells within 5 °F."""
        target, found = self.pairs
        return float(np.mean(np.abs(found - target) <= 5.0))

    def slopes(self) -> tuple[float, float]:
        """Least-squares change of superheat per °F of wet bulb and of outdoor air."""
        wet, outdoor = np.meshgrid(WET_BULBS, OUTDOORS, indexing="ij")
        covered = (self.target >= 5.0) & (self.superheat > 0.5)
        columns = [wet[covered], outdoor[covered], np.ones(covered.sum())]
        fit = np.linalg.lstsq(np.stack(columns, axis=1), self.superheat[covered], rcond=None)[0]
        return float(fit[0]), float(fit[1])


@lru_cache
def rule_grid(bench: Bench) -> RuleGrid:
    """The whole grid in one batch, return dry bulb 80 °F."""
    cells = [(wet, outdoor) for wet in WET_BULBS for outdoor in OUTDOORS]
    around = [weather(float(outdoor), wet=float(wet)) for wet, outdoor in cells]
    point = steady.solve_many([bench.installed()] * len(cells), around)
    shape = len(WET_BULBS), len(OUTDOORS)
    target = [target_superheat(fahrenheit(wet), fahrenheit(out)) * 1.8 for wet, out in cells]
    return RuleGrid(
        target=np.array(target).reshape(shape),
        superheat=(np.asarray(point.superheat) * 1.8).reshape(shape),
    )


def rule_verdicts(bench: Bench) -> list[Verdict]:
    """Three bars of one unit with a fixed orifice."""
    grid = rule_grid(bench)
    got = {"correlation": grid.correlation, "rms": grid.rms, "within 5 °F": grid.share_close}
    return [
        Verdict(
            id=name,
            about=f"superheat against the rule, {grid.pairs[0].size} cells",
            source=SOURCE,
            where=bench.label,
            expected="≤ 5 °F" if name == "rms" else f"≥ {bar:g}",
            got=f"{got[name]:.3g}",
            tolerance="bar of the project",
            state=state_of(got[name] <= bar if name == "rms" else got[name] >= bar),
        )
        for name, bar in BARS.items()
    ]
