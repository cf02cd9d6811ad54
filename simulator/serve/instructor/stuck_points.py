"""Where a visit seems stuck: told from what was done, never from what is true."""

from simulator.calls.visit import Visit

IDLE = 180.0  # without an act, by the clock of the room [s]
SAME = 4  # readings in a row that only repeat earlier ones
MANY = 15  # readings without a cause marked
SLOW, FEW = 30.0, 3  # minutes on site with fewer readings than this


def stuck_point(visit: Visit, idle: float, allowed: float | None) -> str:
    """Why an instructor might walk over.

    Parameters
    ----------
    visit : Visit
        As it stands.
    idle : float
        Since its last act. [s]
    allowed : float or None
        Site time, in minutes.

    Returns
    -------
    str
        Empty where nothing speaks for it; common practice, no source.
    """
    if visit.is_closed:
        return ""
    if allowed is not None and visit.minute >= allowed:
        return "time used up"
    if visit.repairs and visit.finding is None:
        return "repaired without a finding"
    if _repeats(visit):
        return "measures the same again"
    if any(event.problems for event in visit.readings[-2:]):
        return "charge test that does not count"
    if len(visit.readings) >= MANY and not visit.marks and visit.finding is None:
        return "many readings, no cause marked"
    if visit.minute >= SLOW and len(visit.readings) < FEW:
        return "long on site, little measured"
    return "no act for minutes" if idle >= IDLE else ""


def _repeats(visit: Visit) -> bool:
    """Whether the last readings tell nothing new: taken before, and nothing changed since."""
    since = [event for event in visit.readings if event.minute > visit.changed_at]
    seen: set[str] = set()
    again = []
    for event in since:
        again.append(event.reading.measurement in seen)
        seen.add(event.reading.measurement)
    return len(again) >= SAME and all(again[-SAME:])
