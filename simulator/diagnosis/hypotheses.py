"""What may be wrong: nothing, one fault of some size, or a plausible pair of them."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np

from simulator.calls.choice import NO_FAULT
from simulator.faults._base import FaultKind
from simulator.faults._catalogue import discover
from simulator.faults._sizes import BOUNDS

SMALLEST = 0.12  # of the field range; less is no fault anybody is called for [-]
EDGES = (SMALLEST, *BOUNDS, 1.0)
NOTHING, PAIRS = 0.08, 0.22  # of calls; common practice, no source [-]
MOST_PAIRS = 77
# How large a fault is when it is met, by thirds of its range; most are middling. Charge: share
# of homes by charge found, NREL ResStock inputs after Winkler et al. 2020. Supply leaks: 10, 20
# and 30 % in 26, 47 and 27 % of homes with ducts outside, the same inputs.
MIDDLING = (0.34, 0.42, 0.24)
SIZES: Mapping[str, tuple[float, float, float]] = {
    "undercharge": (0.74, 0.17, 0.09),
    "overcharge": (0.66, 0.17, 0.17),
    "supply_leak": (0.55, 0.33, 0.12),
}
# Only one of them can be true, or one of them hides whatever the other does.
ALONE = frozenset(
    {
        *("open_compressor", "grounded_compressor", "lost_leg", "blocked_drain"),
        *("tripped_leak_detector", "stuck_reversing_valve"),
    }
)
EXCLUSIVE = (
    frozenset({"undercharge", "overcharge", "wrong_refrigerant"}),
    frozenset({"weak_blower", "fast_blower"}),
    frozenset({"starving_valve", "overfeeding_valve"}),
    frozenset({"undersized_orifice", "oversized_orifice"}),
    frozenset({"thermostat_offset", "cold_thermostat"}),
    frozenset({"no_defrost", "frequent_defrost"}),
    frozenset({"supply_leak", "disconnected_run"}),
)
# Pairs that cancel in some reading or share their cause, and are taught for it.
TAUGHT = (
    frozenset({"non_condensables", "undercharge"}),
    frozenset({"undercharge", "weak_blower"}),
    frozenset({"supply_leak", "return_leak"}),
    # What a visit in a hurry leaves behind: covers off, lugs loose, ounces added.
    frozenset({"open_filter_slot", "loose_lug"}),
    frozenset({"open_filter_slot", "overcharge"}),
    frozenset({"loose_lug", "overcharge"}),
)


@dataclass(frozen=True, slots=True)
class Hypothesis:
    """One set of causes, each within a part of its range.

    Parameters
    ----------
    causes : tuple
        Codes; empty where nothing is wrong.
    spans : tuple
        Smallest and largest size of each, in SI of its own measure. [-]
    weight : float
        How likely it is before anything is known. [-]
    """

    causes: tuple[str, ...]
    spans: tuple[tuple[float, float], ...]
    weight: float

    @property
    def named(self) -> tuple[str, ...]:
        """What a finding would say.

        Returns
        -------
        tuple
            Codes; no fault where nothing is wrong.
        """
        return self.causes or (NO_FAULT,)


def spans_of(fault: FaultKind, edges: tuple[float, ...] = EDGES) -> list[tuple[float, float]]:
    """The range of a fault in parts.

    Parameters
    ----------
    fault : FaultKind
        Which.
    edges : tuple
        Of the parts, as shares of its range. [-]

    Returns
    -------
    list
        Smallest and largest of each part, in SI; one point where it has no degrees. [-]
    """
    whole = fault.high * fault.unit_in_si
    if fault.is_all_or_nothing:
        return [(whole, whole)]
    return [(low * whole, high * whole) for low, high in pairwise(edges)]


def applicable(mode: str, metering: str) -> dict[str, FaultKind]:
    """Faults that have a meaning for a unit and what it does.

    Parameters
    ----------
    mode : str
        cooling or heating.
    metering : str
        txv or orifice.

    Returns
    -------
    dict
        By code.
    """
    return {
        code: fault
        for code, fault in discover().items()
        if mode in fault.modes and metering in fault.metering
    }


@lru_cache(maxsize=8)
def hypotheses(mode: str, metering: str) -> tuple[Hypothesis, ...]:
    """Everything that is thought of on such a call.

    Parameters
    ----------
    mode : str
        cooling or heating.
    metering : str
        txv or orifice.

    Returns
    -------
    tuple
        Weights add up to one; nothing wrong comes first.
    """
    found = applicable(mode, metering)
    whole = sum(fault.prior for fault in found.values())
    pairs = _pairs(found)
    in_pairs = sum(pairs.values())
    listed = [Hypothesis((), (), NOTHING)]
    for code, fault in found.items():
        share = (1.0 - NOTHING - PAIRS) * fault.prior / whole
        spans = spans_of(fault)
        sizes = SIZES.get(code, MIDDLING) if len(spans) > 1 else (1.0,)
        listed += [
            Hypothesis((code,), (span,), share * size)
            for span, size in zip(spans, sizes, strict=True)
        ]
    for pair, weight in pairs.items():
        listed += _sized(found, pair, PAIRS * weight / in_pairs)
    return tuple(listed)


def _pairs(found: dict[str, FaultKind]) -> dict[tuple[str, str], float]:
    """The likeliest pairs and those that are taught, as if met independently."""
    names = list(found)
    weights = {
        (one, other): found[one].prior * found[other].prior
        for place, one in enumerate(names)
        for other in names[place + 1 :]
        if not {one, other} & ALONE and not any({one, other} <= group for group in EXCLUSIVE)
    }
    ranked = sorted(weights, key=lambda pair: -weights[pair])
    kept = ranked[:MOST_PAIRS] + [p for p in ranked[MOST_PAIRS:] if frozenset(p) in TAUGHT]
    return {pair: weights[pair] for pair in kept}


def _sized(found: dict[str, FaultKind], pair: tuple[str, str], weight: float) -> list[Hypothesis]:
    """A pair in halves of each fault's range."""
    halves = [spans_of(found[code], (SMALLEST, 0.5, 1.0)) for code in pair]
    cells = [(one, other) for one in halves[0] for other in halves[1]]
    return [Hypothesis(pair, spans, weight / len(cells)) for spans in cells]


def severities(hypothesis: Hypothesis, drawn: np.ndarray) -> list[np.ndarray]:
    """Sizes of its faults for draws of unit variance.

    Parameters
    ----------
    hypothesis : Hypothesis
        Which.
    drawn : array
        One column for each cause, shape (n, m). [-]

    Returns
    -------
    list
        Arrays of shape (n,), in SI, held inside the fault's part of the range. [-]
    """
    sizes = []
    for column, (low, high) in zip(drawn.T, hypothesis.spans, strict=False):
        middle, half = 0.5 * (low + high), 0.5 * (high - low)
        # A level draw over the part has this standard deviation.
        sizes.append(np.clip(middle + half / np.sqrt(3.0) * column, low, high))
    return sizes
