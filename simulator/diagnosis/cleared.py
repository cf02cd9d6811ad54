"""What readings have cleared, and how large what they point to seems: the rest of a finding."""

import numpy as np

from simulator.calls.choice import NO_FAULT
from simulator.diagnosis.belief import Belief, Standing
from simulator.diagnosis.hypotheses import Hypothesis
from simulator.faults._catalogue import discover
from simulator.faults._sizes import is_sized, size_at

# Decimal logarithms of odds [-].
CLEARED = 1.477  # 30 to 1 against
OPEN = 1.0  # nearer than 10 to 1, a cause is not cleared at all
FELL = 0.5  # by the readings, not by never having been likely
ASKED_FOR = 3  # marks that a finding is complete with [-]


def is_cleared(cause: str, first: Belief, now: Belief) -> bool:
    """Whether readings speak against a cause for good.

    Parameters
    ----------
    cause : str
        Its code.
    first, now : Belief
        By the work order alone, and with the readings.

    Returns
    -------
    bool
    """
    left = -now.odds_of_one(cause)
    return cause != NO_FAULT and left >= CLEARED and left + first.odds_of_one(cause) >= FELL


def cleared(first: Belief, now: Belief) -> list[str]:
    """All causes that the readings have cleared.

    Parameters
    ----------
    first, now : Belief
        By the work order alone, and with the readings.

    Returns
    -------
    list
        Codes, what was likeliest at first before the others.
    """
    found = [cause for cause in first.causes if is_cleared(cause, first, now)]
    return sorted(found, key=lambda cause: (-first.causes[cause], cause))


def likeliest_sizes(now: Standing, causes: tuple[str, ...]) -> tuple[str, ...]:
    """How large each cause of a finding seems by the readings.

    Parameters
    ----------
    now : Standing
        What is believed.
    causes : tuple
        Codes, all of one set that is thought of.

    Returns
    -------
    tuple
        A size each; nothing for what has no degrees.
    """
    listed = now.table.listed
    of_set = [place for place, one in enumerate(listed) if set(one.named) == set(causes)]
    weight = np.bincount(now.table.owner, weights=now.cells, minlength=len(listed))
    return tuple(
        _size(cause, [(listed[place], float(weight[place])) for place in of_set])
        for cause in causes
    )


def _size(cause: str, weighed: list[tuple[Hypothesis, float]]) -> str:
    kind = discover().get(cause)
    if kind is None or not is_sized(kind):
        return ""
    whole = kind.high * kind.unit_in_si
    middles = [sum(one.spans[one.causes.index(cause)]) / 2.0 / whole for one, _ in weighed]
    shares = [share for _, share in weighed]
    total = sum(shares)
    if total <= 0.0:
        return ""
    return size_at(sum(m * s for m, s in zip(middles, shares, strict=True)) / total)
