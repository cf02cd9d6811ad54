"""What each page shows: a panel joined to the part of the bench that answers it."""

from collections.abc import Callable
from typing import Any

from IPython.display import display

from simulator.calls.call_table import CallFileError
from simulator.records.visit_records import RecordsError
from simulator.serve.guard import apology, ticket_for
from simulator.serve.kernels.session import begin_page, page
from simulator.serve.kernels.tidying import tidied
from simulator.serve.learning.progress import keeping
from simulator.serve.stand_page import stand
from simulator.serve.web.speaking import speaking
from simulator.widgets.call.panel import CallPanel
from simulator.widgets.debrief.panel import DebriefPanel
from simulator.widgets.lesson.panel import LessonPanel
from simulator.widgets.panel import Handle, Panel
from simulator.widgets.test_stand.panel import TestStandPanel
from simulator.words.catalogue import catalogue

NO_VISIT = "This address names no visit. Start a call from the home page."


def safe(handle: Handle) -> Handle:
    """A handler whose faults stay on the server.

    Parameters
    ----------
    handle : callable
        Takes a message, gives an answer.

    Returns
    -------
    callable
        Gives a sentence with a ticket number where the other would raise.
    """

    def answer(message: dict[str, Any]) -> dict[str, Any]:
        try:
            return handle(message)
        except Exception as problem:
            return {"problem": apology(ticket_for(problem))}

    return answer


def show_test_stand() -> None:
    """The test stand."""
    begin_page()
    _show(TestStandPanel, stand.answer)


def show_call() -> None:
    """The call of the visit in the page's address."""
    token = begin_page().visit
    _show(CallPanel, _visit_handle(token, lambda desk, message: desk.act(message)))


def show_debrief() -> None:
    """The debrief of the visit in the page's address."""
    from simulator.serve.visits.debrief_page import DebriefPage

    here = begin_page()
    _show(DebriefPanel, _visit_handle(here.visit, DebriefPage(here.trainee).answered))


def _visit_handle(
    token: str | None, answered: Callable[[Any, dict[str, Any]], dict[str, Any]]
) -> Handle:
    """Open the visit at the first message, so that a fault in it becomes a sentence."""
    desks: list[Any] = []

    def handle(message: dict[str, Any]) -> dict[str, Any]:
        from simulator.serve.visits import visits

        if token is None:
            return {"problem": NO_VISIT}
        try:
            if not desks:
                desks.append(visits.open_desk(token))
        except (RecordsError, CallFileError) as problem:
            return {"problem": str(problem)}
        return answered(desks[0], message)

    return handle


def _show(kind: type[Panel], handle: Handle) -> None:
    words = catalogue(page().language)
    said = words.standing_in(str(kind._esm))
    panel = kind(tidied(speaking(safe(handle), words)), words.language, said)
    display(panel)  # type: ignore[no-untyped-call]


def begin_lesson() -> None:
    """Watch the line to the browser; once at the top of a lesson."""
    begin_page()


def show_part(name: str, part: str) -> None:
    """One part of a lesson.

    Parameters
    ----------
    name : str
        Of the lesson.
    part : str
        Of its file.
    """
    _show(LessonPanel, keeping(name, part, page().trainee))
