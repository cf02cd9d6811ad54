"""One call to take next, chosen by what the home page shows of every call."""

from typing import Any

from simulator.calls.visit import fold
from simulator.records.visit_records import RecordsError, VisitRecord
from simulator.serve.classes.dealing import as_dealt
from simulator.serve.classes.files import class_records
from simulator.serve.classes.rules import may_start
from simulator.serve.visits import visits

PASS = 70  # of 100 points, from which the next one may be harder [-]


def next_call(record: VisitRecord, points: float) -> dict[str, Any] | None:
    """The call a trainee might take after this visit.

    Parameters
    ----------
    record : VisitRecord
        Of the visit just closed.
    points : float
        What it was worth, of 100. [-]

    Returns
    -------
    dict or None
        ``call`` as listed and ``why``; None where every call has been closed.
    """
    calls = {call["id"]: call for call in visits.list_calls()}
    if record.call not in calls:
        return None
    level = int(calls[record.call]["level"])
    done = _closed(record.trainee) | {record.call}
    left = [
        call for name, call in calls.items() if name not in done and may_start(name, record.trainee)
    ]
    assigned = _assigned(record.trainee)
    wanted = level + 1 if points >= PASS else level
    chosen = min(
        left,
        key=lambda call: (call["id"] not in assigned, abs(call["level"] - wanted), call["level"]),
        default=None,
    )
    if chosen is None:
        return None
    return {
        "call": as_dealt(chosen, record.trainee),
        "why": _why(chosen, level, chosen["id"] in assigned),
    }


def _why(chosen: dict[str, Any], level: int, is_assigned: bool) -> str:
    if is_assigned:
        return "Your class works it."
    if chosen["level"] > level:
        return "It is a step harder."
    if chosen["level"] < level:
        return "It is a step easier: the same way of working, with less in the way."
    return "It is about as hard as this one."


def _closed(trainee: str) -> set[str]:
    found = set()
    for record in visits.records().of_trainee(trainee):
        try:
            if fold(visits.records().events(record.token)).is_closed:
                found.add(record.call)
        except RecordsError:
            continue
    return found


def _assigned(trainee: str) -> frozenset[str]:
    joined = next(iter(class_records().of_trainee(trainee)), None)
    return frozenset() if joined is None else frozenset(joined.calls)
