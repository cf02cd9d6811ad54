"""What an instructor does with a class: terms, marks, sheets."""

from collections.abc import Iterable
from typing import Any

from tornado.web import HTTPError

from simulator.calls import call_file
from simulator.calls.versions import recipes
from simulator.records.class_records import ClassRecord
from simulator.records.visit_records import RecordsError
from simulator.serve.classes.files import (
    assignments,
    class_calls,
    class_records,
    dealt_versions,
    overrides,
)
from simulator.serve.instructor import class_board
from simulator.serve.instructor.class_board import Row
from simulator.serve.instructor.class_debrief_pages import class_debrief_handlers, under_way
from simulator.serve.instructor.class_sheets import gradebook, item_sheet, title_of
from simulator.serve.instructor.corner_pages import ONE_CLASS, InstructorPage
from simulator.serve.instructor.form_sheet import form_sheet, trust
from simulator.serve.instructor.visit_told import visit_told
from simulator.serve.visits import grading, visits
from simulator.serve.visits.closed_visits import closed_card


class ClassPage(InstructorPage):
    """A page about one class, with numbers to type."""

    def number(self, field: str) -> float | None:
        """A number of a form.

        Parameters
        ----------
        field : str
            Its name.

        Returns
        -------
        float or None
            None where nothing was typed.

        Raises
        ------
        RecordsError
            For what is no number.
        """
        typed = self.get_body_argument(field, "").strip()
        if not typed:
            return None
        try:
            return float(typed)
        except ValueError:
            raise RecordsError(f"{typed[:20]} is not a number.") from None


class Terms(ClassPage):
    """Practice or test, time allowed, more time, release, calls taken back and added."""

    def get(self, code: str) -> None:
        """Show the terms of every call.

        Parameters
        ----------
        code : str
            Of the class.
        """
        self._show(self.the_class(code), "")

    def post(self, code: str) -> None:
        """Change them.

        Parameters
        ----------
        code : str
            Of the class.
        """
        self.check_xsrf_cookie()
        the_class = self.the_class(code)
        call, own = self.get_body_argument("call", ""), assignments()
        try:
            match self.get_body_argument("do", ""):
                case "assign":
                    mode = self.get_body_argument("mode", "")
                    own.assign(the_class.code, call, mode, self.number("minutes"))
                    is_own = self.get_body_argument("own", "") == "yes"
                    dealt_versions().choose(the_class.code, call, is_own=is_own)
                case "extend":
                    trainee = self._trainee_at(the_class, self.get_body_argument("seat", ""))
                    more = self.number("minutes")
                    own.extend(the_class.code, call, 0.0 if more is None else more, trainee)
                case "release":
                    if self._must_ask(the_class, call):
                        return
                    own.release(the_class.code, call)
                case "withdraw":
                    class_calls().withdraw(the_class.code, call)
                case "add" if call in call_file.names():
                    class_calls().add(the_class.code, call)
                case _:
                    raise HTTPError(400)
        except RecordsError as problem:
            self.set_status(400)
            self._show(the_class, str(problem))
            return
        self.back(the_class, "/terms")

    def _must_ask(self, the_class: ClassRecord, call: str) -> bool:
        """Whether somebody is still at it and nobody has said to release it all the same."""
        if self.get_body_argument("sure", "") == "yes":
            return False
        rows = [row for row in class_board.board(the_class) if row.call_id == call]
        still = under_way(rows)
        if still:
            self._show(the_class, "", asked=call, still=still)
        return still > 0

    def _trainee_at(self, the_class: ClassRecord, seat: str) -> str:
        if not seat:
            return ""
        members = class_records().members(the_class.code)
        if not (seat.isascii() and seat.isdigit() and 1 <= int(seat) <= len(members)):
            raise RecordsError("There is no such seat in this class.")
        return members[int(seat) - 1].trainee

    def _show(
        self, the_class: ClassRecord, problem: str, *, asked: str = "", still: int = 0
    ) -> None:
        dealt = dealt_versions().dealt(the_class.code)
        self.finish(
            self.rendered(
                "terms.html",
                the_class=the_class,
                problem=problem,
                asked=asked,
                still=still,
                calls=[
                    {
                        "id": call,
                        "title": title_of(call),
                        "terms": terms,
                        "is_own": call in dealt,
                        "recipes": len(recipes(call)),
                    }
                    for call, terms in assignments().of(the_class.code).items()
                ],
                seats=range(1, len(class_records().members(the_class.code)) + 1),
                others=[one for one in visits.list_calls() if one["id"] not in the_class.calls],
                token=self.xsrf_form_html(),
            )
        )


class Marks(ClassPage):
    """Names and points, for the instructor's own screen."""

    def get(self, code: str) -> None:
        """Show them.

        Parameters
        ----------
        code : str
            Of the class.
        """
        the_class = self.the_class(code)
        rows = [row for row in class_board.board(the_class) if row.token]
        grading.begin(ungraded(rows))
        decided = {row.token: overrides().of(row.token) for row in rows}
        told = {"rows": rows, "decided": decided, "trust": trust(rows)}
        self.finish(self.rendered("marks.html", the_class=the_class, **told))


class Mark(ClassPage):
    """One visit: what was done and written; once closed, its points, and setting others."""

    def get(self, code: str, number: str) -> None:
        """Show it.

        Parameters
        ----------
        code, number : str
            Of the class and of the work order.
        """
        the_class = self.the_class(code)
        self._show(the_class, self._row(the_class, number), "")

    def post(self, code: str, number: str) -> None:
        """Set the points.

        Parameters
        ----------
        code, number : str
            Of the class and of the work order.
        """
        self.check_xsrf_cookie()
        the_class = self.the_class(code)
        row = self._row(the_class, number)
        if not row.is_closed:
            raise HTTPError(404)
        try:
            points = self.number("points")
            if points is None:
                raise RecordsError("Points go from 0 to 100.")
            overrides().add(row.token, points, self.get_body_argument("reason", ""))
        except RecordsError as problem:
            self.set_status(400)
            self._show(the_class, row, str(problem))
            return
        self.back(the_class, f"/marks/{row.number}")

    def _row(self, the_class: ClassRecord, number: str) -> Row:
        """A visit of this very class."""
        for row in class_board.board(the_class):
            if row.number == number:
                return row
        raise HTTPError(404)

    def _show(self, the_class: ClassRecord, row: Row, problem: str) -> None:
        grading.begin(ungraded([row]))
        self.finish(
            self.rendered(
                "mark.html",
                the_class=the_class,
                row=row,
                card=closed_card(row.token),
                decided=overrides().of(row.token),
                visit=visit_told(row.token),
                problem=problem,
                token=self.xsrf_form_html(),
            )
        )


SHEETS = {"results": gradebook, "items": item_sheet, "form": form_sheet}


class Sheet(ClassPage):
    """A file for a spreadsheet."""

    async def get(self, code: str, kind: str) -> None:
        """Give it, once every closed visit is graded.

        Parameters
        ----------
        code : str
            Of the class.
        kind : str
            A key of ``SHEETS``.
        """
        the_class = self.the_class(code)
        await grading.worked_out(ungraded(class_board.board(the_class)))
        self.set_header("Content-Type", "text/csv; charset=utf-8")
        name = f"benchcall-{the_class.code}-{kind}.csv"
        self.set_header("Content-Disposition", f'attachment; filename="{name}"')
        told = SHEETS[kind](the_class)
        # The mark by which spreadsheets know UTF-8.
        self.finish("\ufeff" + told)


def ungraded(rows: Iterable[Row]) -> list[str]:
    """Closed visits whose points are still to be worked out.

    Parameters
    ----------
    rows : iterable of Row
        Of a board.

    Returns
    -------
    list
        Tokens.
    """
    return [row.token for row in rows if row.is_closed and row.points is None]


def class_handlers() -> list[Any]:
    """Addresses of a class.

    Returns
    -------
    list
        For the tornado application.
    """
    return [
        (rf"{ONE_CLASS}/terms", Terms),
        (rf"{ONE_CLASS}/marks", Marks),
        (rf"{ONE_CLASS}/marks/(B-[0-9]{{1,12}})", Mark),
        *class_debrief_handlers(),
        (rf"{ONE_CLASS}/(results|items|form)\.csv", Sheet),
    ]
