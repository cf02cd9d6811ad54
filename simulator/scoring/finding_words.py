"""What the part for the evidence says of a finding, in whole sentences."""

from collections.abc import Collection

from simulator.calls.choice import NO_FAULT
from simulator.diagnosis.belief import Belief
from simulator.diagnosis.causes import name_of
from simulator.diagnosis.evidence import strongest
from simulator.instruments.measurements import MEASUREMENTS
from simulator.scoring.carried import (
    ENOUGH,
    ENOUGH_FOR_COSTLY,
    SUSPICION,
    Carried,
)


def unlucky(stated: Collection[str], true: Collection[str]) -> str:
    """A miss that the readings spoke for, in words.

    Parameters
    ----------
    stated, true : collection
        Codes.

    Returns
    -------
    str
    """
    if set(stated) < set(true):
        return (
            "There was more than you stated, but your readings spoke for just that: most is kept."
        )
    return "What you stated is not what was true, but your readings spoke for it: most is kept."


def said(cause: str, one: Carried | None, *, stood_there: bool) -> str:
    """What the odds were worth, in words.

    Parameters
    ----------
    cause : str
        A true one.
    one : Carried, optional
        How well it was carried; none where it was not stated.
    stood_there : bool
        Whether the readings carried it, stated or not.

    Returns
    -------
    str
    """
    name, best = name_of(cause), MEASUREMENTS[strongest(cause)].said
    if one is None and stood_there:
        return f"It stood on your sheet and was not read from it: {name}. It tells most: {best}."
    if one is None:
        return f"Something was not found; it tells most: {best}."
    if one.odds >= ENOUGH_FOR_COSTLY:
        return f"Your readings carry the finding, better than 30 to 1: {name}."
    return f"Your readings carry the finding, better than 10 to 1: {name}."


def not_enough(cause: str, one: Carried, belief: Belief, *, is_late: bool) -> str:
    """What a right cause wanted: a reading, or one before its repair, or one against a rival.

    Parameters
    ----------
    cause : str
        A true one that was stated.
    one : Carried
        Not well enough.
    belief : Belief
        When it had to be known.
    is_late : bool
        Whether it was mended before it was stated.

    Returns
    -------
    str
    """
    name, best = name_of(cause), MEASUREMENTS[strongest(cause)].said
    if not one.is_shown and is_late:
        return (
            f"Mended before a reading you rested it on had shown it: {name}. It tells most: {best}."
        )
    if not one.is_shown:
        return f"Named without a reading that shows it: {name}. It tells most: {best}."
    if one.odds >= ENOUGH:
        return f"Better than 10 to 1, but this repair is costly and asks for 30 to 1: {name}."
    is_suspicion, rival = one.odds >= SUSPICION, _nearest(cause, belief)
    if rival is None and is_suspicion:
        return f"A suspicion, not yet enough for a repair: {name}. It tells most: {best}."
    if rival is None:
        return f"Right, but your readings left it open: {name}. It tells most: {best}."
    other, tells = name_of(rival), MEASUREMENTS[strongest(rival)].said
    if is_suspicion:
        return (
            f"A suspicion, not yet enough for a repair: {name}. Nearest to it stood: {other}. Of "
            f"that tells most: {tells}."
        )
    return (
        f"Right, but your readings left it open: {name}. Nearest to it stood: {other}. Of that "
        f"tells most: {tells}."
    )


def _nearest(cause: str, belief: Belief) -> str | None:
    """The likeliest without it, where that is something else that is wrong."""
    without = {one: share for one, share in belief.sets.items() if cause not in one}
    likeliest = max(without, key=lambda one: without[one], default=frozenset())
    # Half of what was found is no rival of the other half.
    others = [c for c in likeliest if c != NO_FAULT and belief.odds_of_one(c) < 0.0]
    return max(others, key=lambda other: (belief.causes[other], other), default=None)


def left_open(one: Carried) -> str:
    """What else stood beside it, in words.

    Parameters
    ----------
    one : Carried
        Of which something beside it was nearly as likely.

    Returns
    -------
    str
    """
    beside = "; ".join(name_of(cause) for cause in one.beside)
    best = MEASUREMENTS[strongest(one.beside[0])].said
    return f"Not settled: whether this was wrong beside it: {beside}. It tells most: {best}."
