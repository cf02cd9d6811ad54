"""Which of the trainee's own readings spoke for a cause, and which against it.

The weight of a reading is the ratio by which it moved the odds of a cause against its absence,
given the readings before it (weight of evidence, I. J. Good, from memory).
"""

from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from simulator.calls.events import Measured
from simulator.calls.site import Site
from simulator.calls.visit import Visit
from simulator.diagnosis.belief import Belief
from simulator.diagnosis.causes import name_of
from simulator.scoring.odds import believed
from simulator.scoring.telling import told
from simulator.scoring.truth import shares

# Decimal logarithms of a ratio: 1.5 to 1, 3 to 1, 10 to 1 [-].
LEANS, SPEAKS, STRONGLY = 0.18, 0.5, 1.0
MOST = 5  # readings told for one direction of one cause [-]
FARTHEST = 3.0  # ratios beyond a thousand are not told apart [-]
LIKELY, RULED_OUT = "likely", "ruled_out"


@dataclass(frozen=True, slots=True)
class Spoke:
    """One reading and what it said of one cause.

    Parameters
    ----------
    event : Measured
        The reading.
    weight : float
        Decimal logarithm of its ratio; above nothing where it speaks for the cause. [-]
    """

    event: Measured
    weight: float


def for_and_against(visit: Visit, site: Site, system: str) -> list[dict[str, Any]]:
    """Every cause that was stated, marked or true, with what spoke for it and against it.

    Parameters
    ----------
    visit : Visit
        Closed.
    site : Site
        With the key.
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    list
        Plain data; true ones first, then those stated, marked likely and ruled out.
    """
    true = tuple(shares(site.key.opened()))
    return [
        {
            "name": name_of(cause),
            "standing": _standing(cause, visit, true),
            "is_ruled_out": _is_only_ruled_out(cause, visit, true),
            **_told(cause, visit, site, system),
        }
        for cause in considered(visit, true)
    ]


def considered(visit: Visit, true: tuple[str, ...]) -> list[str]:
    """Causes that a trainee took a stand on, and those that were true.

    Parameters
    ----------
    visit : Visit
        Closed.
    true : tuple
        Codes.

    Returns
    -------
    list
        Codes, none twice.
    """
    stated = visit.finding.causes if visit.finding else ()
    marked = [
        code for mark in (LIKELY, RULED_OUT) for code, is_so in visit.marks.items() if is_so == mark
    ]
    return list(dict.fromkeys((*true, *stated, *marked)))


def spoken(cause: str, visit: Visit, beliefs: list[Belief]) -> list[Spoke]:
    """What each reading said of a cause.

    Parameters
    ----------
    cause : str
        Its code.
    visit : Visit
        Closed.
    beliefs : list
        From the work order on, as ``believed`` gives them.

    Returns
    -------
    list
        In the order in which they were taken.
    """
    taken = {event.seq: event for event in visit.readings}
    return [
        Spoke(taken[after.seq], after.odds_of_one(cause) - before.odds_of_one(cause))
        for before, after in pairwise(beliefs)
        if after.seq in taken
    ]


def _standing(cause: str, visit: Visit, true: tuple[str, ...]) -> str:
    """How it was marked, stated and in truth."""
    said = []
    if visit.finding and cause in visit.finding.causes:
        said.append("You stated it.")
    mark = visit.marks.get(cause)
    if mark == LIKELY:
        said.append("You marked it likely.")
    if mark == RULED_OUT:
        said.append("You ruled it out.")
    return " ".join([*(said or ["You took no stand on it."]), _truth(cause in true)])


def _truth(is_true: bool) -> str:
    return "It was true." if is_true else "It was not so."


def _is_only_ruled_out(cause: str, visit: Visit, true: tuple[str, ...]) -> bool:
    stated = visit.finding.causes if visit.finding else ()
    return visit.marks.get(cause) == RULED_OUT and cause not in (*true, *stated)


def _told(cause: str, visit: Visit, site: Site, system: str) -> dict[str, Any]:
    beliefs = believed(visit, site)
    if cause not in beliefs[0].causes:
        text = "No odds were worked out for it: it does not belong to this unit in this season."
        return {"together": text, "detail": "", "speak_for": [], "speak_against": []}
    spoke = spoken(cause, visit, beliefs)
    total = sum(one.weight for one in spoke)
    return {
        "together": together(total, bool(spoke)),
        "detail": ratio(total),
        "speak_for": _listed([one for one in spoke if one.weight >= LEANS], site, system),
        "speak_against": _listed([one for one in spoke if one.weight <= -LEANS], site, system),
    }


def together(weight: float, has_readings: bool) -> str:
    """What all readings said of a cause.

    Parameters
    ----------
    weight : float
        Sum of their weights. [-]
    has_readings : bool
        Whether there are any.

    Returns
    -------
    str
        A sentence.
    """
    if not has_readings:
        return "You took no reading before anything was mended, so nothing spoke for or against it."
    if weight >= STRONGLY:
        return "Together your readings spoke strongly for it."
    if weight >= SPEAKS:
        return "Together your readings spoke for it."
    if weight <= -STRONGLY:
        return "Together your readings spoke strongly against it."
    if weight <= -SPEAKS:
        return "Together your readings spoke against it."
    return "Together your readings left it about as likely as the work order did."


def ratio(weight: float) -> str:
    """A weight as a ratio, for those who want the number.

    Parameters
    ----------
    weight : float
        Decimal logarithm. [-]

    Returns
    -------
    str
        Nothing where it is about even.
    """
    if abs(weight) < LEANS:
        return ""
    if abs(weight) > FARTHEST:
        return (
            "odds multiplied by more than 1,000"
            if weight > 0
            else "odds divided by more than 1,000"
        )
    times = 10.0 ** abs(weight)
    number = f"{times:.1f}" if times < 3.0 else f"{times:,.0f}"
    return f"odds multiplied by {number}" if weight > 0 else f"odds divided by {number}"


def _listed(spoke: list[Spoke], site: Site, system: str) -> list[dict[str, Any]]:
    """Those that say most, in the order in which they were taken."""
    most = sorted(spoke, key=lambda one: -abs(one.weight))[:MOST]
    return [
        {
            "text": told(one.event, site, system),
            "says": speaks(one.weight),
            "detail": ratio(one.weight),
            "seq": one.event.seq,
        }
        for one in sorted(most, key=lambda one: one.event.seq)
    ]


def speaks(weight: float) -> str:
    """How a reading speaks of a cause.

    Parameters
    ----------
    weight : float
        Decimal logarithm of its ratio. [-]

    Returns
    -------
    str
        Words for people.
    """
    if weight >= STRONGLY:
        return "Speaks strongly for it."
    if weight >= SPEAKS:
        return "Speaks for it."
    if weight > 0.0:
        return "Leans towards it."
    if weight <= -STRONGLY:
        return "Speaks strongly against it."
    if weight <= -SPEAKS:
        return "Speaks against it."
    return "Leans away from it."
