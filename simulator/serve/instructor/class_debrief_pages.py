"""The class debrief for the wall: its page at once, its best question when it is worked out."""

import json
from asyncio import to_thread
from typing import Any

from tornado.web import HTTPError

from simulator.calls import call_file
from simulator.calls.site import Site
from simulator.calls.visit import Visit
from simulator.records.class_records import ClassRecord
from simulator.serve.classes.files import assignments
from simulator.serve.instructor import class_board
from simulator.serve.instructor.class_board import Row
from simulator.serve.instructor.class_debrief import class_debrief, class_question
from simulator.serve.instructor.corner_pages import ONE_CLASS, InstructorPage
from simulator.serve.instructor.item_statistics import FEWEST_CHOICES, regret_curve
from simulator.serve.visits import grading, visits
from simulator.serve.visits.closed_visits import site_for_paper
from simulator.serve.web.speaking import said


def closed(the_class: ClassRecord, call: str) -> tuple[list[Row], list[tuple[Visit, Site]]]:
    """Everybody's visits of a call, and the closed ones, one a trainee.

    Parameters
    ----------
    the_class : ClassRecord
        Whose.
    call : str
        Its id.

    Returns
    -------
    tuple
        Rows of the board, and each first closed visit by seat, with the site of its own version.

    Raises
    ------
    HTTPError
        404 where the class neither works the call nor has worked it.
    """
    rows = [row for row in class_board.board(the_class) if row.call_id == call]
    if call not in call_file.names() or not (rows or call in the_class.calls):
        raise HTTPError(404)
    first = {row.seat: row for row in reversed(rows) if row.is_closed}
    desks = [visits.open_desk(first[seat].token) for seat in sorted(first)]
    return rows, [(desk.visit, desk.site) for desk in desks]


def under_way(rows: list[Row]) -> int:
    """How many trainees are still at a call.

    Parameters
    ----------
    rows : list
        Of the board, one call.

    Returns
    -------
    int
        Those who have begun and closed no visit of it. [-]
    """
    return len({row.seat for row in rows} - {row.seat for row in rows if row.is_closed})


def choices(rows: list[Row]) -> list[dict[str, int]]:
    """What each choice in turn was worth, meaned over a class.

    Parameters
    ----------
    rows : list
        Of the board, one call.

    Returns
    -------
    list
        ``number``, ``kept`` of the best in percent and ``visits``; only those that visits enough
        made, of each trainee's first closed visit.
    """
    first = {row.seat: row.regrets for row in reversed(rows) if row.regrets}
    curve = regret_curve(list(first.values()))
    return [
        {
            "number": place + 1,
            "kept": round(100.0 * (1.0 - regret)),
            "visits": sum(len(of) > place for of in first.values()),
        }
        for place, regret in enumerate(curve)
        if regret is not None
    ]


class ClassDebrief(InstructorPage):
    """What the class did with a call."""

    def get(self, code: str, call: str) -> None:
        """Show it.

        Parameters
        ----------
        code, call : str
            Of the class and its call.
        """
        the_class = self.the_class(code)
        rows, done = closed(the_class, call)
        grading.begin(row.token for row in rows if row.is_closed and row.points is None)
        terms = assignments().of(the_class.code).get(call)
        self.finish(
            self.rendered(
                "class_debrief.html",
                the_class=the_class,
                call=call,
                title=call_file.load(call).title,
                is_held=terms is not None and terms.is_held,
                open=under_way(rows),
                choices=choices(rows),
                least=FEWEST_CHOICES,
                **class_debrief(
                    [visit for visit, _ in done],
                    site_for_paper(call),
                    [site for _, site in done],
                ),
            )
        )


class ClassQuestion(InstructorPage):
    """The best question of a class alone."""

    async def get(self, code: str, call: str) -> None:
        """Give it as JSON, worked out beside the server's own loop.

        Parameters
        ----------
        code, call : str
            Of the class and its call.
        """
        _, done = closed(self.the_class(code), call)
        told = await to_thread(class_question, done, site_for_paper(call))
        self.set_header("Content-Type", "application/json; charset=utf-8")
        self.begin_language()
        self.finish(json.dumps(said(told)))


def class_debrief_handlers() -> list[Any]:
    """Addresses of a class debrief.

    Returns
    -------
    list
        For the tornado application.
    """
    address = rf"{ONE_CLASS}/debrief/([A-Za-z0-9_-]{{1,64}})"
    return [(address, ClassDebrief), (rf"{address}/question", ClassQuestion)]
