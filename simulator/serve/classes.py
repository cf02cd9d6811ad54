"""A class seen from outside: who is where, and how it came out."""

import csv
import io
from dataclasses import dataclass
from typing import Any

from simulator.calls import call_file
from simulator.calls.call_table import CallFileError
from simulator.calls.visit import Visit, fold
from simulator.diagnosis.causes import causes
from simulator.records.class_records import ClassRecord
from simulator.records.visit_records import RecordsError
from simulator.repairs import _catalogue as repairs
from simulator.serve import visits
from simulator.serve.class_files import class_records, class_visits
from simulator.serve.closed_visits import closed_card

FORMULA = ("=", "+", "-", "@", "\t", "\r")  # what a spreadsheet would carry out
STAGES = ("not begun", "looking round", "measuring", "finding stated", "repaired", "closed")


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
        Out of 100, once closed. [-]
    parts : tuple
        Name and points of each part of the scorecard.
    """

    seat: int
    name: str
    call: str = "–"
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
    return "measuring" if len(visit.readings) > 2 else "looking round"


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
    by_trainee: dict[str, list[str]] = {}
    for token in class_visits().tokens(of.code):
        try:
            by_trainee.setdefault(visits.records().record(token).trainee, []).append(token)
        except RecordsError:
            continue
    rows: list[Row] = []
    for seat, member in enumerate(class_records().members(of.code), start=1):
        tokens = by_trainee.get(member.trainee, [])
        rows += [_row(seat, member.name, token) for token in tokens] or [
            Row(seat=seat, name=member.name)
        ]
    return rows


def _row(seat: int, name: str, token: str) -> Row:
    try:
        record = visits.records().record(token)
        visit = fold(visits.records().events(token))
        call = call_file.load(record.call)
    except (RecordsError, CallFileError):
        return Row(seat=seat, name=name, call="A visit that cannot be read")
    titles = {cause.code: cause.name for cause in causes()}
    found = visit.finding.causes if visit.finding else ()
    card = closed_card(token) if visit.is_closed else None
    return Row(
        seat=seat,
        name=name,
        call=call.title,
        number=record.number,
        stage=stage(visit),
        minutes=round(visit.minute),
        readings=len(visit.readings),
        repairs=len(visit.repairs),
        last=visit.place.replace("_", " "),
        finding="; ".join(titles.get(code, code) for code in found),
        repaired="; ".join(repairs.discover()[done.repair].title for done in visit.repairs),
        points=card.total if card else None,
        parts=tuple((part.name, part.points) for part in card.parts) if card else (),
    )


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
        }
        for row in rows
    ]


def as_csv(of: ClassRecord) -> str:
    """All results of a class for a spreadsheet.

    Parameters
    ----------
    of : ClassRecord
        Which class.

    Returns
    -------
    str
        Comma-separated, a row a visit; a cell that a spreadsheet would take for a formula
        begins with an apostrophe.
    """
    rows = board(of)
    names = list(dict.fromkeys(name for row in rows for name, _ in row.parts))
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    head = [
        "seat", "name", "class", "call", "work order", "stage", "minutes on site", "readings",
        "finding", "repairs", "points of 100",
    ]  # fmt: skip
    writer.writerow([*head, *names])
    for row in rows:
        parts = dict(row.parts)
        cells = [
            row.seat, row.name, of.name, row.call, row.number, row.stage, row.minutes,
            row.readings, row.finding, row.repaired, "" if row.points is None else row.points,
            *(parts.get(name, "") for name in names),
        ]  # fmt: skip
        writer.writerow([_harmless(cell) for cell in cells])
    return text.getvalue()


def _harmless(cell: object) -> object:
    return f"'{cell}" if isinstance(cell, str) and cell.startswith(FORMULA) else cell
