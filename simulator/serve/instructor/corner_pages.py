"""The instructor's corner: classes, their boards, results, answer keys."""

import json
from collections.abc import Sequence
from typing import Any

from tornado.web import HTTPError

from simulator.calls import call_file
from simulator.calls.versions import parted
from simulator.records.class_records import ClassRecord
from simulator.records.visit_records import RecordsError
from simulator.serve.classes.files import assignments, class_records
from simulator.serve.instructor import class_board
from simulator.serve.instructor.door import COOKIE, NONE_SET, Door, records
from simulator.serve.visits import closed_visits, visits
from simulator.serve.web.handlers import OwnPage
from simulator.serve.web.speaking import said

ONE_CLASS = r"/instructor/class/([A-Za-z0-9]{4,12})"  # an address, the code in it


class InstructorPage(OwnPage):
    """A page for whoever signed in; everybody else is shown the door."""

    @property
    def door(self) -> Door:
        """The one door of this server.

        Returns
        -------
        Door
        """
        found: Door = self.settings["benchcall_door"]
        return found

    def session(self) -> str:
        """The session of the cookie.

        Returns
        -------
        str
            Empty without a cookie that this server signed.
        """
        return (self.get_signed_cookie(COOKIE) or b"").decode("ascii", "ignore")

    def prepare(self) -> None:
        """Let only an instructor on."""
        super().prepare()
        self.set_header("Cache-Control", "no-store")
        if not self.door.knows(self.session()):
            if self.request.method == "GET":
                self.redirect(f"{self.settings['base_url']}instructor/door")
            else:
                raise HTTPError(403)

    def the_class(self, code: str) -> ClassRecord:
        """The class of an address.

        Parameters
        ----------
        code : str
            From the address.

        Returns
        -------
        ClassRecord

        Raises
        ------
        HTTPError
            404 where there is none.
        """
        try:
            return class_records().by_code(code)
        except RecordsError as problem:
            raise HTTPError(404) from problem

    def back(self, the_class: ClassRecord, to: str = "") -> None:
        """Go to a page of the class after a form.

        Parameters
        ----------
        the_class : ClassRecord
            Which class.
        to : str
            After its address.
        """
        base = self.settings["base_url"]
        self.redirect(f"{base}instructor/class/{the_class.code}{to}", status=303)


class TheDoor(OwnPage):
    """Signing in."""

    def get(self) -> None:
        """Ask for the password, or say how one is set."""
        self._show("" if records().password_hash() else NONE_SET)

    def post(self) -> None:
        """Try a password."""
        self.check_xsrf_cookie()
        door: Door = self.settings["benchcall_door"]
        session, said = door.enter(
            self.get_body_argument("password", ""), self.request.remote_ip or ""
        )
        if session is None:
            self.set_status(403)
            self._show(said)
            return
        self.set_signed_cookie(
            COOKIE, session, expires_days=None, path=self.settings["base_url"], httponly=True,
            samesite="Strict",
        )  # fmt: skip
        self.redirect(f"{self.settings['base_url']}instructor", status=303)

    def _show(self, problem: str) -> None:
        self.set_header("Cache-Control", "no-store")
        self.finish(
            self.rendered(
                "door.html",
                problem=problem,
                is_set=problem != NONE_SET,
                token=self.xsrf_form_html(),
            )
        )


class Corner(InstructorPage):
    """All classes, and the form for another."""

    def get(self) -> None:
        """Show them."""
        self._show("")

    def post(self) -> None:
        """Open a class."""
        self.check_xsrf_cookie()
        known = call_file.names()
        wanted = [call for call in self.get_body_arguments("call") if call in known]
        name = self.get_body_argument("name", "")
        try:
            opened = class_records().open_class(name, wanted)
        except RecordsError as problem:
            self.set_status(400)
            self._show(str(problem), name, wanted)
            return
        self.back(opened)

    def _show(self, problem: str, name: str = "", wanted: Sequence[str] = ()) -> None:
        calls = visits.list_calls()
        self.finish(
            self.rendered(
                "corner.html",
                problem=problem,
                typed={"name": name, "calls": wanted},
                classes=class_records().classes(),
                calls=calls,
                causes={call["id"]: closed_visits.causes_on_paper(call["id"]) for call in calls},
                token=self.xsrf_form_html(),
            )
        )


class Leave(InstructorPage):
    """Signing out."""

    def post(self) -> None:
        """Forget the session."""
        self.check_xsrf_cookie()
        self.door.leave(self.session())
        self.clear_cookie(COOKIE, path=self.settings["base_url"])
        self.redirect(self.settings["base_url"], status=303)


class Board(InstructorPage):
    """One class: its code, who is where."""

    def get(self, code: str) -> None:
        """Show it.

        Parameters
        ----------
        code : str
            Of the class.
        """
        the_class = self.the_class(code)
        titles = {call["id"]: call["title"] for call in visits.list_calls()}
        found = class_board.board(the_class)
        rows = class_board.shown(found, self._with_names())
        begun = dict.fromkeys(row.call_id for row in found)
        self.finish(
            self.rendered(
                "board.html",
                the_class=the_class,
                calls=[(call, titles[call]) for call in the_class.calls if call in titles],
                taken_back=[
                    (c, titles[c]) for c in begun if c in titles and c not in the_class.calls
                ],
                address=self._address(),
                terms=assignments().of(the_class.code),
                rows=rows,
                tally=class_board.tally(rows),
                with_names=self._with_names(),
                token=self.xsrf_form_html(),
            )
        )

    def post(self, code: str) -> None:
        """Pause the class or go on.

        Parameters
        ----------
        code : str
            Of the class.
        """
        self.check_xsrf_cookie()
        the_class = self.the_class(code)
        class_records().freeze(the_class.code, self.get_body_argument("freeze", "") == "yes")
        self.back(the_class)

    def _address(self) -> str:
        """Where trainees find the bench; empty where it is this computer's name for itself."""
        if self.request.host_name in ("localhost", "::1") or self.request.host_name[:4] == "127.":
            return ""
        return f"{self.request.protocol}://{self.request.host}{self.settings['base_url']}"

    def _with_names(self) -> bool:
        return self.get_query_argument("names", "") == "yes"


class BoardRows(Board):
    """The rows of a board alone, for its page to fetch again."""

    def get(self, code: str) -> None:
        """Give them as JSON.

        Parameters
        ----------
        code : str
            Of the class.
        """
        rows = class_board.shown(class_board.board(self.the_class(code)), self._with_names())
        self.set_header("Content-Type", "application/json; charset=utf-8")
        stages = class_board.tally(rows)
        self.begin_language()
        own = ("who", "visit") if self._with_names() else ()
        told = [said(row, own) for row in rows]
        self.finish(json.dumps({"rows": told, "stages": [said(stage) for stage in stages]}))

    def post(self, code: str) -> None:
        """Nothing is changed here.

        Parameters
        ----------
        code : str
            Of the class.

        Raises
        ------
        HTTPError
            Always 405.
        """
        raise HTTPError(405)


class AnswerKey(InstructorPage):
    """What is true at a call, for paper."""

    def get(self, call: str) -> None:
        """Show it.

        Parameters
        ----------
        call : str
            Its id, or the name of a version.
        """
        from simulator.serve.instructor.answer_key import answer_key

        if parted(call)[0] not in call_file.names():
            raise HTTPError(404)
        self.finish(self.rendered("answer_key.html", **answer_key(call)))


def instructor_handlers() -> list[Any]:
    """Addresses of the corner.

    Returns
    -------
    list
        For the tornado application.
    """
    return [
        (r"/instructor", Corner),
        (r"/instructor/door", TheDoor),
        (r"/instructor/leave", Leave),
        (ONE_CLASS, Board),
        (rf"{ONE_CLASS}/rows", BoardRows),
        (r"/instructor/key/([A-Za-z0-9_.-]{1,64})", AnswerKey),
    ]
