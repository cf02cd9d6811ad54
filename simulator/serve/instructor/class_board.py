"""A class seen from outside: who is where, and how it came out."""

import time
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

from simulator.calls import call_file
from simulator.calls.call_table import CallFileError
from simulator.calls.visit import Visit, fold
from simulator.diagnosis.causes import name_of
from simulator.records.class_records import ClassRecord
from simulator.records.class_visits import Pulse
from simulator.records.visit_records import RecordsError
from simulator.repairs import _catalogue as repairs
from simulator.scoring.hints import depth
from simulator.serve.classes.dealing import worked
from simulator.serve.classes.files import assignments, class_records, class_visits
from simulator.serve.instructor.stuck_points import stuck_point
from simulator.serve.visits import visits
from simulator.serve.visits.closed_visits import closed_card
from simulator.serve.visits.graded import stored

STAGES = ("not begun", "looking round", "measuring", "finding stated", "repaired", "closed")
UNREADABLE = "A visit that cannot be read"
NO_CALL = "–"
ELSEWHERE = "a call that is not the class's"
FRESH = 900.0  # since the last act, for somebody to be still there [s]


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One trainee at one call.

    Parameters
    ----------
    seat : int
        Number in order of joining; what is shown instead of the name.
    name : str
        As given when joining.
    call : str
        Title, or a dash before the first call.
    number : str
        Of the work order.
    stage : str
        One of ``STAGES``.
    minutes : int
        On site, in minutes.
    readings, repairs : int
        How many so far. [-]
    last : str
        Where the trainee stands.
    finding : str
        As stated.
    repaired : str
        What was done.
    points : float or None
        Out of 100 by the rubric, once closed and worked out. [-]
    parts : tuple
        Name and points of each part of the scorecard.
    token, call_id : str
        Of the visit.
    version : str
        Name of the version that was worked; the call's own where it was the call itself.
    stuck : str
        Why one might walk over; empty where nothing speaks for it.
    has_harm, is_capped : bool
        Done to the customer's disadvantage; unsafe.
    causes : tuple of str
        Stated, by code.
    hint_depth : int
        The deepest hint taken, 0 without one. [-]
    regrets : tuple of float
        What each choice gave away of the best, once worked out. [-]
    """

    seat: int
    name: str
    call: str = NO_CALL
    number: str = ""
    stage: str = STAGES[0]
    minutes: int = 0
    readings: int = 0
    repairs: int = 0
    last: str = ""
    finding: str = ""
    repaired: str = ""
    points: float | None = None
    parts: tuple[tuple[str, float], ...] = ()
    token: str = ""
    call_id: str = ""
    version: str = ""
    stuck: str = ""
    has_harm: bool = False
    is_capped: bool = False
    causes: tuple[str, ...] = ()
    hint_depth: int = 0
    regrets: tuple[float, ...] = ()

    @property
    def is_closed(self) -> bool:
        """Whether the technician has left, graded or not."""
        return self.stage == STAGES[-1]


def name_at(token: str, trainee: str) -> str:
    """The name under which a visit was worked in its class.

    Parameters
    ----------
    token : str
        Of the visit.
    trainee : str
        Whose it is.

    Returns
    -------
    str
        Empty for a visit of no class.
    """
    for joined in class_records().of_trainee(trainee):
        if token in class_visits().tokens(joined.code):
            members = class_records().members(joined.code)
            return next((member.name for member in members if member.trainee == trainee), "")
    return ""


def stage(visit: Visit) -> str:
    """How far a visit has come.

    Parameters
    ----------
    visit : Visit

    Returns
    -------
    str
        One of ``STAGES``.
    """
    if visit.is_closed:
        return "closed"
    if visit.repairs:
        return "repaired"
    if visit.finding is not None:
        return "finding stated"
    has_measured = any(event.reading.value is not None for event in visit.readings)
    return "measuring" if has_measured else "looking round"


def board(of: ClassRecord) -> list[Row]:
    """Everybody's visits, those who have not begun included.

    Parameters
    ----------
    of : ClassRecord
        Which class.

    Returns
    -------
    list
        By seat, a trainee's visits in order.
    """
    by_trainee: dict[str, list[Pulse]] = {}
    for pulse in class_visits().pulses(of.code):
        by_trainee.setdefault(pulse.trainee, []).append(pulse)
    terms = assignments().of(of.code)
    now = time.time()
    elsewhere = class_visits().elsewhere(of.code, now - FRESH)
    rows: list[Row] = []
    for seat, member in enumerate(class_records().members(of.code), start=1):
        pulses = by_trainee.get(member.trainee)
        if not pulses:
            where = ELSEWHERE if member.trainee in elsewhere else NO_CALL
            rows.append(Row(seat=seat, name=member.name, call=where))
        for pulse in pulses or ():
            try:
                row, visit = _row(pulse.token, pulse.count)
            except (RecordsError, CallFileError):
                rows.append(Row(seat=seat, name=member.name, call=UNREADABLE, token=pulse.token))
                continue
            # A call may have been taken back since.
            own = terms.get(row.call_id)
            allowed = own.allowed(member.trainee) if own else None
            stuck = stuck_point(visit, now - pulse.stored_at, allowed)
            rows.append(replace(row, seat=seat, name=member.name, stuck=stuck))
    return rows


def _row(token: str, count: int) -> tuple[Row, Visit]:
    """A visit as so many events make it; nothing is read again until there are more."""
    row, visit = _known(token, count)
    if row.is_closed and row.points is None and stored(token) is not None:
        _known.cache_clear()
        row, visit = _known(token, count)
    return row, visit


@lru_cache(maxsize=1024)
def _known(token: str, count: int) -> tuple[Row, Visit]:
    del count
    record = visits.records().record(token)
    visit = fold(visits.records().events(token))
    call = call_file.load(record.call)
    found = visit.finding.causes if visit.finding else ()
    card = closed_card(token) if visit.is_closed else None
    row = Row(
        seat=0,
        name="",
        call=call.title,
        number=record.number,
        stage=stage(visit),
        minutes=round(visit.minute),
        readings=len(visit.readings),
        repairs=len(visit.repairs),
        last=visit.place.replace("_", " "),
        finding="; ".join(name_of(code) for code in found),
        repaired="; ".join(repairs.discover()[done.repair].title for done in visit.repairs),
        points=card.total if card and card.is_final else None,
        parts=tuple((p.name, p.points) for p in card.parts if not p.is_open) if card else (),
        token=token,
        call_id=record.call,
        version=worked(record),
        has_harm=bool(card and card.harm),
        is_capped=bool(card and card.is_capped),
        causes=found,
        hint_depth=depth(visit),
        regrets=card.regrets if card and card.is_final else (),
    )
    return row, visit


def shown(rows: list[Row], with_names: bool) -> list[dict[str, Any]]:
    """The board as it is projected: no finding, no points, names only on demand.

    Parameters
    ----------
    rows : list
        As ``board`` gave them.
    with_names : bool
        Whether names stand there.

    Returns
    -------
    list
        Plain data.
    """
    return [
        {
            "who": row.name if with_names else f"Seat {row.seat}",
            "call": row.call,
            "stage": row.stage,
            "minutes": row.minutes,
            "readings": row.readings,
            "repairs": row.repairs,
            "last": row.last,
            "stuck": row.stuck,
            "visit": row.number if with_names else "",
        }
        for row in rows
    ]


def tally(rows: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """How many are at each stage, and how many seem stuck.

    Parameters
    ----------
    rows : list
        As ``shown`` gave them.

    Returns
    -------
    list
        ``name`` and ``count``, all stages in their order, then who seems stuck.
    """
    counts = [{"name": name, "count": sum(row["stage"] == name for row in rows)} for name in STAGES]
    return [*counts, {"name": "seem stuck", "count": sum(bool(row["stuck"]) for row in rows)}]
