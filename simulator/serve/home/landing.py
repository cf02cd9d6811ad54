"""The home page and the door to a call; neither starts a kernel."""

from typing import Any
from urllib.parse import quote

from tornado.web import HTTPError

from simulator.serve.guard import apology, ticket_for
from simulator.serve.paths import lessons_directory
from simulator.serve.web.handlers import A_YEAR, OwnPage
from simulator.serve.web.notebooks import pages
from simulator.serve.web.speaking import COOKIE as LANGUAGE_COOKIE
from simulator.serve.web.speaking import page_language
from simulator.words.catalogue import ENGLISH, languages

IN_A_TEST = "This call is a test at the moment"
OTHERS = "It opens again when the instructor releases the scores. Take another call meanwhile."


class Home(OwnPage):
    """Everything there is to do, and what this browser has begun."""

    def get(self) -> None:
        """Show the home page."""
        self.show("")

    def show(self, said: str, *, code: str = "", name: str = "") -> None:
        """Show the home page.

        Parameters
        ----------
        said : str
            A sentence on top; empty for none.
        code, name : str
            What was typed to join a class, so that it need not be typed again.
        """
        trainee = self.trainee()
        problem, calls, visits = self._bench(trainee)
        joined = self._class(trainee)
        done = self._progress(trainee)
        found = pages(lessons_directory())
        self.set_header("Cache-Control", "no-store")
        self.finish(
            self.rendered(
                "home.html",
                stand=next((page for page in found if page.kind == "test-stand"), None),
                lessons=[page for page in found if page.kind == "lesson"],
                calls=calls,
                opened=[visit for visit in visits if visit["phase"] == "open"],
                closed=[visit for visit in visits if visit["phase"] != "open"],
                problem=problem or said,
                joined=joined,
                terms=self._terms(trainee, joined),
                counted=self._counted(trainee),
                typed={"code": code, "name": name},
                done=done,
                scripts=self.settings["benchcall_scripts"],
                token=self.xsrf_form_html(),
                languages=languages(),
            )
        )

    def _progress(self, trainee: str) -> dict[str, tuple[int, int]]:
        """Questions answered rightly and asked, by notebook of a lesson that was begun."""
        try:
            from simulator.serve.learning.progress import progress, questions

            return {f"{name}.ipynb": (n, questions(name)) for name, n in progress(trainee).items()}
        except Exception as error:
            ticket_for(error)
            return {}

    def _class(self, trainee: str) -> Any:
        """The class joined last; None without one, or where it cannot be read."""
        try:
            from simulator.serve.classes.files import class_records

            return next(iter(class_records().of_trainee(trainee)), None)
        except Exception as error:
            ticket_for(error)
            return None

    def _terms(self, trainee: str, joined: Any) -> dict[str, dict[str, Any]]:
        """What is asked of each call of the class, and which visit of it is begun."""
        if joined is None:
            return {}
        try:
            from simulator.serve.classes.files import assignments, class_visits
            from simulator.serve.classes.rules import ahead, is_once

            begun = dict(class_visits().of_trainee(joined.code, trainee))  # the newest of each
            return {
                call: {
                    "said": ahead(own, trainee),
                    # Of a test that which counts; a practice before it is none.
                    "begun": class_visits().begun(trainee, call) or ""
                    if is_once(own)
                    else begun.get(call, ""),
                    "is_again": not is_once(own),
                }
                for call, own in assignments().of(joined.code).items()
            }
        except Exception as error:
            ticket_for(error)
            return {}

    def _counted(self, trainee: str) -> set[str]:
        """Visits that count for a class of theirs, also those before the newest of a call."""
        try:
            from simulator.serve.classes.files import class_records, class_visits

            return {
                token
                for joined in class_records().of_trainee(trainee)
                for _, token in class_visits().of_trainee(joined.code, trainee)
            }
        except Exception as error:
            ticket_for(error)
            return set()

    def _bench(self, trainee: str) -> tuple[str | None, list[dict[str, Any]], list[dict[str, Any]]]:
        """Calls and visits; when they cannot be read, the rest of the page still serves."""
        calls: list[dict[str, Any]] = []
        try:
            from simulator.calls import call_file
            from simulator.records.visit_records import RecordsError
            from simulator.serve.classes.dealing import as_dealt
            from simulator.serve.visits import visits

            calls = visits.list_calls()
            said = " ".join(call_file.damaged()) or None
            try:
                # Visits first: they say best what is wrong with their file.
                own = visits.open_visits(trainee)
                return said, [as_dealt(call, trainee) for call in calls], own
            except RecordsError as problem:
                return str(problem), calls, []
        except Exception as error:
            return apology(ticket_for(error)), calls, []


class Join(Home):
    """Enters a class by the code on its board."""

    def get(self) -> None:
        """The form stands on the home page."""
        self.redirect(self.settings["base_url"])

    def post(self) -> None:
        """Join, or say what was wrong with the code or the name."""
        self.check_xsrf_cookie()
        from simulator.records.visit_records import RecordsError
        from simulator.serve.classes.files import class_records

        code, name = (self.get_body_argument(field, "") for field in ("code", "name"))
        try:
            class_records().join(code, self.trainee(), name)
        except RecordsError as problem:
            self.set_status(400)
            self.show(str(problem), code=code, name=name)
            return
        self.redirect(self.settings["base_url"], status=303)


class ChooseLanguage(OwnPage):
    """Keeps the language that was chosen on the home page."""

    def post(self) -> None:
        """Keep it, and go back."""
        self.check_xsrf_cookie()
        language = self.get_body_argument("language", ENGLISH)
        base = self.settings["base_url"]
        if language in languages():
            self.set_cookie(
                LANGUAGE_COOKIE, language, expires_days=A_YEAR, path=base, samesite="Lax"
            )
        self.redirect(base, status=303)


class StartCall(OwnPage):
    """Takes a call: shows it on a visit to the address, opens it on the button."""

    def get(self, call: str) -> None:
        """Ask before a visit is opened, so that no crawler or preview opens one.

        Parameters
        ----------
        call : str
            The call's id.
        """
        from simulator.serve.classes.dealing import as_dealt
        from simulator.serve.classes.rules import uncounted_by

        offered = as_dealt(_known(call), self.trainee())
        self.set_header("Cache-Control", "no-store")
        self.finish(
            self.rendered(
                "start.html",
                call=offered,
                beside=uncounted_by(offered["id"], self.trainee()),
                token=self.xsrf_form_html(),
            )
        )

    def post(self, call: str) -> None:
        """Open a visit and go to it.

        Parameters
        ----------
        call : str
            The call's id.
        """
        self.check_xsrf_cookie()
        from simulator.serve.classes.dealing import version_for
        from simulator.serve.classes.files import class_visits, visit_languages
        from simulator.serve.classes.rules import may_start
        from simulator.serve.visits import visits

        trainee = self.trainee()
        known = _known(call)["id"]
        if not may_start(known, trainee):
            self.set_status(403)
            self.finish(self.rendered("problem.html", title=IN_A_TEST, advice=OTHERS, ticket=None))
            return
        token = class_visits().begun(trainee, known)
        if token is None:
            token = visits.start_visit(known, trainee, version_for(known, trainee))
            class_visits().note(token, known, trainee)
            self.begin_language()
            visit_languages().note(token, page_language())
        self.redirect(
            f"{self.settings['base_url']}voila/render/call.ipynb?visit={quote(token)}", status=303
        )


def _known(call: str) -> dict[str, Any]:
    from simulator.serve.visits import visits

    for known in visits.list_calls():
        if known["id"] == call:
            return dict(known)
    raise HTTPError(404)
