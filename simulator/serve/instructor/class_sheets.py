"""A class as sheets for a spreadsheet: a gradebook, and the calls as items."""

import csv
import io
from collections.abc import Iterable, Sequence

from simulator.calls import call_file
from simulator.calls.call_table import CallFileError
from simulator.diagnosis.causes import name_of
from simulator.records.class_records import ClassRecord
from simulator.scoring.grounds import COUNTED
from simulator.scoring.scorecard import VERSION
from simulator.serve.classes import rules
from simulator.serve.classes.files import overrides, visit_languages
from simulator.serve.instructor.class_board import Row, board
from simulator.serve.instructor.item_statistics import FEWEST, FEWEST_CHOICES, Item, Response, items
from simulator.serve.visits.closed_visits import true_causes

FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")  # what a spreadsheet would carry out
RE_TEST = "Re-test"
NO_R = f"It takes {FEWEST} who closed another call too, and unlike points."
GRADEBOOK = (
    *("seat", "name", "class", "call", "version", "work order", "mode", "stage", "minutes on site"),
    *("readings", "finding", "repairs", "points of 100", "points by the rubric"),
    *("reason for points set by hand", "harm", "unsafe", "deepest hint", "rubric"),
)
ITEMS = (
    *("call", "closed", "left open", "p", "p, 95 % within", "item-total r", "flag"),
    *("median minutes", "harm rate", "unsafe rate", "verification rate", "median hint depth"),
    *("wrong causes stated", "standing", "English less Spanish, deltas", "by chance, probability"),
    *(
        "why no r",
        "why no difference",
        *(f"mean regret of choice {n}" for n in range(1, COUNTED + 1)),
    ),
    "why no regret",
)


def gradebook(of: ClassRecord) -> str:
    """All results of a class.

    Parameters
    ----------
    of : ClassRecord
        Which class.

    Returns
    -------
    str
        Comma-separated, a row a visit.
    """
    rows = board(of)
    names = list(dict.fromkeys(name for row in rows for name, _ in row.parts))
    lines = [[*_grades(of, row), *(dict(row.parts).get(n, "") for n in names)] for row in rows]
    return sheet([*GRADEBOOK, *names], lines)


def _grades(of: ClassRecord, row: Row) -> list[object]:
    decided = overrides().of(row.token) if row.token else []
    by_rubric: object = "" if row.points is None else row.points
    is_closed = row.is_closed
    return [
        row.seat,
        row.name,
        of.name,
        row.call,
        row.version,
        row.number,
        "" if not row.token else "test" if rules.is_test(row.token) else "practice",
        row.stage,
        row.minutes,
        row.readings,
        row.finding,
        row.repaired,
        decided[-1].points if decided else by_rubric,
        by_rubric,
        decided[-1].reason if decided else "",
        _yes(row.has_harm) if is_closed else "",
        _yes(row.is_capped) if is_closed else "",
        row.hint_depth if is_closed else "",
        VERSION if is_closed else "",
    ]


def item_sheet(of: ClassRecord) -> str:
    """Figures of each call of a class, from everybody's first visit and the rubric's points.

    Parameters
    ----------
    of : ClassRecord
        Which class.

    Returns
    -------
    str
        Comma-separated, a row a call.
    """
    lines = []
    rows = board(of)
    # Those taken back since stand last.
    calls = list(dict.fromkeys([*of.calls, *(row.call_id for row in rows if row.call_id)]))
    for item in items(calls, responses(rows)):
        wrong = "; ".join(f"{name_of(code)} ({times})" for code, times in item.distractors)
        lines.append(
            [
                title_of(item.call),
                item.closed,
                item.left_open,
                short(item.p),
                short(item.wide),
                short(item.r),
                "low" if item.is_flagged else "",
                "" if item.minutes is None else round(item.minutes),
                *(short(share) for share in (item.harm, item.capped, item.verified)),
                short(item.hint_depth),
                wrong,
                "provisional" if item.is_provisional else "",
                short(item.language.value),
                short(item.by_chance),
                "" if item.r is not None else NO_R,
                item.language.why,
                *(short(regret) for regret in item.regrets),
                _why_no_regret(item),
            ]
        )
    return sheet(ITEMS, lines)


def _why_no_regret(item: Item) -> str:
    if None not in item.regrets:
        return ""
    return f"Empty where fewer than {FEWEST_CHOICES} visits chose so often."


def responses(rows: Iterable[Row]) -> list[Response]:
    """Everybody's first visit of each call; later ones are practised.

    Parameters
    ----------
    rows : iterable of Row
        Of a board, a trainee's visits in order.

    Returns
    -------
    list
    """
    first: dict[tuple[int, str], Response] = {}
    rows = list(rows)
    languages = visit_languages().of([row.token for row in rows if row.token])
    for row in rows:
        if not row.call_id or (row.seat, row.call_id) in first:
            continue
        true = true_causes(row.token) if row.is_closed else ()
        first[row.seat, row.call_id] = Response(
            trainee=str(row.seat),
            call=row.call_id,
            points=row.points,
            minutes=float(row.minutes),
            has_harm=row.has_harm,
            is_capped=row.is_capped,
            is_verified=dict(row.parts).get(RE_TEST, 0.0) > 0.0,
            hint_depth=row.hint_depth,
            wrong=tuple(c for c in row.causes if c not in true) if true else (),
            language=languages.get(row.token, ""),
            regrets=row.regrets,
        )
    return list(first.values())


def sheet(head: Sequence[str], lines: Iterable[Sequence[object]]) -> str:
    """A comma-separated file.

    Parameters
    ----------
    head : sequence of str
        Names of the columns.
    lines : iterable
        Cells.

    Returns
    -------
    str
        A cell that a spreadsheet would take for a formula begins with an apostrophe.
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(head)
    writer.writerows([_harmless(cell) for cell in line] for line in lines)
    return text.getvalue()


def _harmless(cell: object) -> object:
    if isinstance(cell, str) and cell.lstrip(" ").startswith(FORMULA):
        return f"'{cell}"
    return cell


def title_of(call: str) -> str:
    """What a call is called.

    Parameters
    ----------
    call : str
        Its id.

    Returns
    -------
    str
        The id itself where its file cannot be read.
    """
    try:
        return call_file.load(call).title
    except CallFileError:
        return call


def _yes(is_so: bool) -> str:
    return "yes" if is_so else "no"


def short(value: float | None) -> object:
    """A figure for a cell.

    Parameters
    ----------
    value : float or None
        [-]

    Returns
    -------
    float or str
        Two decimals; empty for none.
    """
    return "" if value is None else round(value, 2)
