"""What hints cost, and how deep they went."""

from typing import Any, NamedTuple

from simulator.calls.visit import Visit
from simulator.diagnosis.coached import RUNGS, name_of_target

EACH = 2.0  # points of efficiency for every rung, trade practice of graded hints [-]
DEEPEST = ("no hint", "a question", "a place to look", "a value to expect", "a worked step")


class Charge(NamedTuple):
    """One hint and what it costs.

    Parameters
    ----------
    text : str
        A sentence.
    seq : int
        Its event.
    points : float
        [-]
    """

    text: str
    seq: int
    points: float


def charge(visit: Visit) -> list[Charge]:
    """What each hint costs of efficiency, and nowhere else.

    Parameters
    ----------
    visit : Visit
        Closed.

    Returns
    -------
    list
        Oldest first; empty without a hint.
    """
    return [
        Charge(
            f"Hint {event.rung} of {RUNGS} taken, {EACH:.0f} points, "
            f"about: {name_of_target(event.about)}.",
            event.seq,
            EACH,
        )
        for event in visit.hints
    ]


def depth(visit: Visit) -> int:
    """How deep the hints went.

    Parameters
    ----------
    visit : Visit
        As it stands.

    Returns
    -------
    int
        The highest rung taken; 0 without a hint. [-]
    """
    return max((event.rung for event in visit.hints), default=0)


def taken(visit: Visit) -> list[dict[str, Any]]:
    """Hints of a visit for its debrief.

    Parameters
    ----------
    visit : Visit
        Closed.

    Returns
    -------
    list
        ``text`` and ``seq``: how many there were, then what each was about; empty without one.
    """
    hints = visit.hints
    if not hints:
        return []
    last = {event.about: event for event in hints}
    whole = f"Hints taken: {len(hints)}. The deepest was {DEEPEST[depth(visit)]}."
    found = [{"text": whole, "seq": hints[0].seq}]
    for about, event in last.items():
        name = name_of_target(about)
        said = f"{name[:1].upper() + name[1:]}: up to {DEEPEST[event.rung]}."
        found.append({"text": said, "seq": event.seq})
    return found
