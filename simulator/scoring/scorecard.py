"""A scorecard from events and key: pure, versioned, every point with its reason."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from simulator.calls.events import Event
from simulator.calls.sealed import Key
from simulator.calls.visit import Visit, fold
from simulator.scoring import acts, reasoning
from simulator.scoring.economy import efficiency
from simulator.scoring.finding import evidence
from simulator.scoring.grounds import Grounds
from simulator.scoring.harm import harm
from simulator.scoring.mending import repairing
from simulator.scoring.part import Because, Part
from simulator.scoring.retest import verification
from simulator.scoring.safety import safety, unsafe
from simulator.scoring.stated import finding_whole

# 2: safety and time are earned by acts, not by leaving it; 3: power locked out; 4: evidence and
# efficiency by the odds of the visit's own readings, re-tests only in like weather; 5: a re-test
# asks that the cause was mended and may be corrected for the weather, right repairs lose points
# where nothing carried them, entering a space unlooked is unsafe, what changed is asked first,
# and the record promises nothing that cannot be kept; 6: what was found may leave open what is
# wrong beside it, a finding says how large and what is ruled out, and air waits for no circuit;
# 7: looks and smoke taken carelessly cost what careless numbers do, led answers earn nothing.
VERSION = "7"
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
        From 0 to 100; of what is settled where a part is still open. [-]
    version : str
        Of this rubric.
    regrets : tuple
        What of the best worth a minute each of the first choices gave away, in their order. [-]
    """

    parts: tuple[Part, ...]
    harm: tuple[str, ...]
    invalid: tuple[str, ...]
    is_capped: bool
    total: float
    version: str = VERSION
    regrets: tuple[float, ...] = ()

    @property
    def is_final(self) -> bool:
        """Whether no part waits for the odds.

        Returns
        -------
        bool
        """
        return not any(part.is_open for part in self.parts)


def score(events: Sequence[Event], key: Key, grounds: Grounds | None = None) -> Scorecard:
    """Grade a closed visit.

    Parameters
    ----------
    events : sequence
        All of them, oldest first.
    key : Key
        What was true.
    grounds : Grounds, optional
        What the visit's own readings carried; parts that rest on it stay open until it is known.

    Returns
    -------
    Scorecard
        The same for the same events, key and grounds, which themselves follow from the events.
    """
    visit, known = fold(events), grounds or Grounds(outdoor=None)
    of_acts: tuple[Callable[[Visit, Key], Part], ...] = (
        acts.interview, safety, reasoning.measuring, acts.customer,
    )  # fmt: skip
    of_grounds = evidence, efficiency, finding_whole, repairing, verification
    asked, safe, measured, recorded = (grade(visit, key) for grade in of_acts)
    carried, chosen, found, mended, proven = (grade(visit, key, known) for grade in of_grounds)
    parts: tuple[Part, ...] = (
        asked,
        safe,
        measured,
        carried,
        chosen,
        found,
        mended,
        proven,
        recorded,
    )
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
        regrets=tuple(round(choice.regret, 3) for choice in known.choices),
    )
