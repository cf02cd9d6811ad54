"""How well a cause or a set of them was carried by the readings of a visit.

A repair asks whether its causes are there; whether something else is wrong beside them is a second
question, and an easier bar: it is asked again at the re-test.
"""

from dataclasses import dataclass
from math import log10

from simulator.calls.choice import NO_FAULT
from simulator.diagnosis.belief import LEAST, Belief
from simulator.faults._catalogue import discover
from simulator.repairs import _catalogue as repairs

# Decimal logarithms of the odds of what was stated [-].
SUSPICION, ENOUGH, ENOUGH_FOR_COSTLY = 0.5, 1.0, 1.477
LUCK = 0.4  # what a right answer keeps that the readings did not carry [-]
SURE = -log10(LEAST)  # nothing is told apart beyond it [-]


@dataclass(frozen=True, slots=True)
class Carried:
    """How well something stated was carried.

    Parameters
    ----------
    odds : float
        Decimal logarithm, of its being there. [-]
    needed : float
        What its repair asks for. [-]
    is_shown : bool
        Whether the readings it was rested on bear on it.
    alone : float
        Decimal logarithm of its odds against the likeliest set that holds it and more. [-]
    beside : tuple
        Codes of what that set holds more; empty where there is none.
    """

    odds: float
    needed: float
    is_shown: bool
    alone: float = SURE
    beside: tuple[str, ...] = ()

    @property
    def is_enough(self) -> bool:
        """Whether it was more than a suspicion.

        Returns
        -------
        bool
        """
        return self.is_shown and self.odds >= self.needed

    @property
    def is_left_open(self) -> bool:
        """Whether the same with something beside it was nearly as likely.

        Returns
        -------
        bool
        """
        return self.alone < SUSPICION

    @property
    def share(self) -> float:
        """Of the evidence points, where it is true.

        Returns
        -------
        float
            [-]
        """
        if not self.is_shown or self.odds < SUSPICION:
            return 0.0
        if not self.is_enough:
            return LUCK
        # From 3 to 1 for something beside it to 3 to 1 against that.
        settled = (self.alone + SUSPICION) / (2.0 * SUSPICION)
        return LUCK + (1.0 - LUCK) * min(max(settled, 0.0), 1.0)


def odds_of(causes: frozenset[str], belief: Belief) -> float:
    """Weight of evidence for these causes.

    Parameters
    ----------
    causes : frozenset
        Codes.
    belief : Belief
        At that moment.

    Returns
    -------
    float
        Decimal logarithm: of the odds that they are all there, or of exactly these against their
        best rival where that is more; of the least likely cause against its absence for a set that
        the engine does not think of. [-]
    """
    if causes not in belief.sets:
        return min((belief.odds_of_one(cause) for cause in causes), default=-SURE)
    return max(belief.odds(causes), odds_there(causes, belief))


def share_there(causes: frozenset[str], belief: Belief) -> float:
    """How likely these causes are, alone or with something beside them.

    Parameters
    ----------
    causes : frozenset
        Codes.
    belief : Belief
        At that moment.

    Returns
    -------
    float
        [-]
    """
    return sum(share for one, share in belief.sets.items() if one >= causes)


def odds_there(causes: frozenset[str], belief: Belief) -> float:
    """The same as odds.

    Parameters
    ----------
    causes : frozenset
        Codes.
    belief : Belief
        At that moment.

    Returns
    -------
    float
        Decimal logarithm. [-]
    """
    there = share_there(causes, belief)
    return log10(max(there, LEAST) / max(1.0 - there, LEAST))


def alone(causes: frozenset[str], belief: Belief) -> tuple[float, tuple[str, ...]]:
    """Weight of evidence that nothing is wrong beside these causes.

    Parameters
    ----------
    causes : frozenset
        Codes.
    belief : Belief
        At that moment.

    Returns
    -------
    tuple
        Decimal logarithm of the odds against the likeliest set that holds them and more, and what
        that set holds more. [-]
    """
    more = {one: share for one, share in belief.sets.items() if one > causes}
    if causes not in belief.sets or not more:
        return SURE, ()
    likeliest = max(more, key=lambda one: more[one])
    odds = log10(max(belief.sets[causes], LEAST) / max(more[likeliest], LEAST))
    return odds, tuple(sorted(likeliest - causes))


def still_wrong(belief: Belief) -> tuple[float, tuple[str, ...]]:
    """Weight of evidence that nothing is wrong any more, once all that was stated is mended.

    Parameters
    ----------
    belief : Belief
        At that moment.

    Returns
    -------
    tuple
        Decimal logarithm of the odds against the likeliest that is wrong, and what that is. [-]
    """
    sound = frozenset({NO_FAULT})
    wrong = [one for one in belief.sets if one != sound]
    likeliest = max(wrong, key=lambda one: belief.sets[one], default=frozenset())
    return belief.odds(sound), tuple(sorted(likeliest))


def needed_for(causes: frozenset[str]) -> float:
    """Odds that the repair of these causes asks for.

    Parameters
    ----------
    causes : frozenset
        Codes.

    Returns
    -------
    float
        Decimal logarithm: 30 to 1 where one is costly or cannot be undone, else 10 to 1. [-]
    """
    acts = [discover()[cause].repairs[0] for cause in causes if cause in discover()]
    is_costly = any(repairs.discover()[act].is_costly for act in acts)
    return ENOUGH_FOR_COSTLY if is_costly else ENOUGH
