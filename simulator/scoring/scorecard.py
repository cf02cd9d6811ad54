"""A scorecard from events and key: pure, versioned, every point with its reason."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from simulator.calls.events import Event
from simulator.calls.sealed import Key
from simulator.calls.visit import fold
from simulator.scoring import acts, reasoning
from simulator.scoring.harm import harm
from simulator.scoring.part import Because, Part
from simulator.scoring.safety import safety, unsafe

VERSION = "3"  # 2: safety and time are earned by acts, not by leaving it; 3: power locked out
GATE_CAP = 40.0  # an unsafe act caps the whole
FULL = 100.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Scorecard:
    """What a closed visit was worth.

    Parameters
    ----------
    parts : tuple
        In the order of the debrief.
    harm : tuple
        What was done to the customer's disadvantage, a sentence each.
    invalid : tuple
        Charge tests that do not count, a sentence each.
    is_capped : bool
        Whether an unsafe act caps the total.
    total : float
        From 0 to 100. [-]
    version : str
        Of this rubric.
    """

    parts: tuple[Part, ...]
    harm: tuple[str, ...]
    invalid: tuple[str, ...]
    is_capped: bool
    total: float
    version: str = VERSION


def score(events: Sequence[Event], key: Key) -> Scorecard:
    """Grade a closed visit.

    Parameters
    ----------
    events : sequence
        All of them, oldest first.
    key : Key
        What was true.

    Returns
    -------
    Scorecard
        The same for the same events and key.
    """
    visit = fold(events)
    graders: tuple[Callable[..., Part], ...] = (
        acts.interview, safety, reasoning.measuring, reasoning.evidence, acts.efficiency,
        reasoning.diagnosis, acts.repairing, reasoning.verification, acts.customer,
    )  # fmt: skip
    parts = tuple(grade(visit, key) for grade in graders)
    capped = unsafe(visit, key)
    total = sum(part.points for part in parts)
    if capped:
        total = min(total, GATE_CAP)
        parts = (
            *parts,
            Part("Limit", 0.0, 0.0, tuple(Because(text, seq) for text, seq in capped)),
        )
    return Scorecard(
        parts=parts,
        harm=tuple(said for said, _ in harm(visit, key)),
        invalid=tuple(reasoning.invalid_charge_tests(visit)),
        is_capped=bool(capped),
        total=round(total, 1),
    )
