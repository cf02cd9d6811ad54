"""How well a cause or a set of them was carried by the readings of a visit."""

from dataclasses import dataclass
from math import log10

from simulator.diagnosis.belief import LEAST, Belief
from simulator.faults._catalogue import discover
from simulator.repairs import _catalogue as repairs
from simulator.scoring.odds import ENOUGH, ENOUGH_FOR_COSTLY, SUSPICION

LUCK = 0.4  # what a right answer keeps that the readings did not carry [-]


@dataclass(frozen=True, slots=True)
class Carried:
    """How well something stated was carried.

    Parameters
    ----------
    odds : float
        Decimal logarithm, against the best rival. [-]
    needed : float
        What its repair asks for. [-]
    is_shown : bool
        Whether the readings it was rested on bear on it.
    """

    odds: float
    needed: float
    is_shown: bool

    @property
    def is_enough(self) -> bool:
        """Whether it was more than a suspicion.

        Returns
        -------
        bool
        """
        return self.is_shown and self.odds >= self.needed

    @property
    def share(self) -> float:
        """Of the evidence points, where it is true.

        Returns
        -------
        float
            [-]
        """
        if self.is_enough:
            return 1.0
        return LUCK if self.is_shown and self.odds >= SUSPICION else 0.0


def odds_of(causes: frozenset[str], belief: Belief) -> float:
    """Weight of evidence for exactly these causes.

    Parameters
    ----------
    causes : frozenset
        Codes.
    belief : Belief
        At that moment.

    Returns
    -------
    float
        Decimal logarithm against the best rival; of the least likely cause against its absence
        for a set that the engine does not think of. [-]
    """
    if causes in belief.sets:
        return belief.odds(causes)
    return min((odds_of_one(cause, belief) for cause in causes), default=-log10(1.0 / LEAST))


def odds_of_one(cause: str, belief: Belief) -> float:
    """Weight of evidence that a cause is among what is wrong.

    Parameters
    ----------
    cause : str
        Its code.
    belief : Belief
        At that moment.

    Returns
    -------
    float
        Decimal logarithm of its odds. [-]
    """
    share = belief.causes.get(cause, 0.0)
    return log10(max(share, LEAST) / max(1.0 - share, LEAST))


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
