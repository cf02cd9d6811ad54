"""When the page asks, between readings, for the two causes thought likeliest; it tells nothing."""

from simulator.calls.events import Declared, Probed, Repaired
from simulator.calls.visit import Visit

# After so many looks and measurements; two or three times a call, the project's own choice.
AFTER = (3, 7, 12)
ASKED = ("ask_", "read_")  # what is asked of people is no look of one's own
MOST = 2  # causes at once


def asked(visit: Visit) -> int:
    """How often the page has asked, answered or not.

    Parameters
    ----------
    visit : Visit
        As it stands; readings after the finding or the first repair ask nothing.

    Returns
    -------
    int
        [-]
    """
    ends = [e.seq for e in visit.events if isinstance(e, Declared | Repaired)]
    end = min(ends, default=visit.next_seq)
    return sum(len([seq for seq in _seen(visit) if seq < end]) >= count for count in AFTER)


def _seen(visit: Visit) -> list[int]:
    """Numbers of the looks and measurements of one's own."""
    return [e.seq for e in visit.readings if not e.reading.measurement.startswith(ASKED)]


def is_due(visit: Visit) -> bool:
    """Whether the page asks now.

    Parameters
    ----------
    visit : Visit
        As it stands; nothing but the number of readings counts.

    Returns
    -------
    bool
        False once a finding is stated, anything is repaired or the visit is closed.
    """
    if visit.is_closed or visit.finding is not None or visit.repairs:
        return False
    seen = _seen(visit)
    crossed = [seen[count - 1] for count in AFTER if len(seen) >= count]
    last = max((e.seq for e in visit.events if isinstance(e, Probed)), default=-1)
    return bool(crossed) and last < crossed[-1]


def hindrance(causes: tuple[str, ...], shares: tuple[float, ...]) -> str | None:
    """What is wrong with an answer.

    Parameters
    ----------
    causes : tuple
        Codes; none where the question is put aside.
    shares : tuple
        Of each, 1 for certain. [-]

    Returns
    -------
    str or None
        A sentence.
    """
    if len(causes) != len(shares) or len(causes) > MOST:
        return "Give one or two causes, each with its percentage."
    if len(set(causes)) != len(causes):
        return "Choose two different causes."
    if not all(0.0 <= share <= 1.0 for share in shares) or sum(shares) > 1.0 + 1e-9:
        return "Percentages go from 0 to 100, and to 100 together at most."
    return None
