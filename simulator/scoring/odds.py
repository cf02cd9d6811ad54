"""The odds a visit's own readings gave, reading by reading, told once it is closed."""

from functools import lru_cache
from typing import Any

from simulator.calls.events import Event, Opened
from simulator.calls.site import Site
from simulator.calls.visit import Visit, fold
from simulator.diagnosis.belief import Belief, history
from simulator.diagnosis.causes import name_of
from simulator.scoring.carried import (
    ENOUGH,
    ENOUGH_FOR_COSTLY,
    SUSPICION,
    alone,
    odds_of,
    odds_there,
    share_there,
)
from simulator.scoring.harm import wanted
from simulator.scoring.truth import shares

CERTAIN = 2.0  # nothing is told beyond it [-]
MOVED = 0.1  # less than this is no news [-]


def band(belief: Belief, true: frozenset[str]) -> str:
    """Odds in words.

    Parameters
    ----------
    belief : Belief
        At one moment.
    true : frozenset
        What was true.

    Returns
    -------
    str
        One sentence or two.
    """
    odds = odds_of(true, belief)
    said = _band(odds) if _band(odds_there(true, belief)) == _band(odds) else _ahead(odds)
    if odds >= ENOUGH and alone(true, belief)[0] < SUSPICION:
        return f"{said} Whether something else was wrong beside it stayed open."
    return said


def gained(before: Belief, after: Belief, true: frozenset[str]) -> float:
    """What one reading did to the odds of what was true.

    Parameters
    ----------
    before, after : Belief
        Without it and with it.
    true : frozenset
        What was true.

    Returns
    -------
    float
        Decimal logarithm of the ratio, within what would change what is done. [-]
    """
    # The odds of what the bars show, so that what moved most is what is seen to move.
    return held(odds_there(true, after)) - held(odds_there(true, before))


def _band(odds: float) -> str:
    if odds >= ENOUGH_FOR_COSTLY:
        return "Better than 30 to 1 for what was true: enough even for a costly repair."
    if odds >= ENOUGH:
        return "Better than 10 to 1 for what was true: enough for a repair that can be undone."
    if odds >= SUSPICION:
        return "A suspicion of what was true, not yet enough for a repair."
    if odds >= -SUSPICION:
        return "Open: what was true stood about even with all else."
    return "Something else still looked likelier than what was true."


def _ahead(odds: float) -> str:
    """Where no other set stands near, though many small ones together weigh as much."""
    if odds >= ENOUGH_FOR_COSTLY:
        return (
            "More than 30 times as likely as any other explanation: enough even for a costly "
            "repair."
        )
    if odds >= ENOUGH:
        return (
            "More than 10 times as likely as any other explanation: enough for a repair that can "
            "be undone."
        )
    if odds >= SUSPICION:
        return "The likeliest explanation by some way, but not yet enough for a repair."
    return "Open: another explanation stood about as likely as what was true."


def believed(visit: Visit, site: Site) -> list[Belief]:
    """Belief from the work order on, after each reading up to the first repair that mends.

    Parameters
    ----------
    visit : Visit
        Of any length.
    site : Site
        With the key, for what mends: what mended nothing left the same to be found.

    Returns
    -------
    list
        The work order's first.
    """
    mends = wanted(site.key.opened())
    first = next((e.seq for e in visit.repairs if e.repair in mends), visit.next_seq)
    return list(_believed(visit.events[:first], site))


@lru_cache(maxsize=8)
def _believed(events: tuple[Event, ...], site: Site) -> tuple[Belief, ...]:
    return history(fold(events), site.call)


def odds_after(visit: Visit, site: Site) -> dict[int, dict[str, Any]]:
    """Odds after each reading up to the first repair that mends, by its event.

    Parameters
    ----------
    visit : Visit
        Closed.
    site : Site
        With the key.

    Returns
    -------
    dict
        ``share``, the probability that what was true is there, alone or with something beside
        it, ``words``, ``likeliest`` and ``rival``.
    """
    true = frozenset(shares(site.key.opened()))
    arrived = next((e.seq for e in visit.events if isinstance(e, Opened)), 0)
    found: dict[int, dict[str, Any]] = {}
    last = ("", "", "")
    for belief in believed(visit, site):
        # Sets of more than two causes are not counted, so nothing can be said of their odds.
        if true not in belief.sets:
            return {}
        said = band(belief, true), likeliest(belief), rival(belief, true)
        found[max(belief.seq, arrived)] = {
            "share": round(share_there(true, belief), 3),
            # Said again only where it has changed.
            "words": said[0] if said != last else "",
            "likeliest": said[1] if said != last else "",
            "rival": said[2] if said != last else "",
        }
        last = said
    return found


def likeliest(belief: Belief) -> str:
    """The likeliest set of causes in words.

    Parameters
    ----------
    belief : Belief
        At one moment.

    Returns
    -------
    str
    """
    return in_words(belief.best)


def rival(belief: Belief, true: frozenset[str]) -> str:
    """What kept the likeliest from being sure, where that was what was true.

    Parameters
    ----------
    belief : Belief
        At one moment.
    true : frozenset
        What was true.

    Returns
    -------
    str
        The next likeliest set in words; empty where what was true led by more than 30 to 1, or
        not at all.
    """
    if belief.best != true or belief.odds(true) >= ENOUGH_FOR_COSTLY:
        return ""
    others = (one for one in belief.sets if one != true)
    likeliest = max(others, key=lambda one: belief.sets[one])
    if likeliest > true:
        (beside,) = likeliest - true
        return f"the same, and wrong beside it: {name_of(beside)}"
    return in_words(likeliest)


def in_words(causes: frozenset[str]) -> str:
    """A set of causes by their names.

    Parameters
    ----------
    causes : frozenset
        Codes.

    Returns
    -------
    str
    """
    first, *beside = (name_of(cause) for cause in sorted(causes))
    return f"{first}, and beside it: {beside[0]}" if beside else first


def held(odds: float) -> float:
    """Past 100 to 1 either way nothing is learnt that would change what is done.

    Parameters
    ----------
    odds : float
        Decimal logarithm. [-]

    Returns
    -------
    float
        [-]
    """
    return min(max(odds, -CERTAIN), CERTAIN)
