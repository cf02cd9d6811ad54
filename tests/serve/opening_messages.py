"""Each lesson's panels asked what a browser asks first, in the lesson's own kernel.

A lesson that runs without error may still hold a panel whose handler fails: the handler
is called by a message, which no cell sends, and its error would become a ticket.
"""

import inspect
from collections import defaultdict
from typing import Any

import nbformat
import pytest
from nbval.plugin import IPyNbCell, IPyNbFile


def have_a_visit() -> None:
    """Runs in the kernel first: a closed visit in the page's address, no error hidden."""
    import os
    import tempfile
    from typing import NoReturn

    from simulator.serve import pages
    from simulator.serve.visits import visits

    def told(problem: BaseException) -> NoReturn:
        raise problem

    pages.ticket_for = told
    os.environ["BENCHCALL_DATA"] = tempfile.mkdtemp(prefix="benchcall-lesson-")
    token = visits.start_visit("rooke", "trainee-of-the-lessons")
    desk = visits.open_desk(token)
    for message in (
        {"do": "declare", "causes": ["no_fault"], "cited": []},
        {"do": "write_up", "text": "Looked at, nothing touched."},
        {"do": "close"},
    ):
        answer = desk.act(message)
        assert "problem" not in answer, answer
    os.environ["QUERY_STRING"] = f"visit={token}"


def ask_every_panel() -> None:
    """Runs in the kernel last: every panel answers the message it gets when it is drawn."""
    import os
    import shutil

    from ipywidgets.widgets import widget

    from simulator.serve.visits import visits
    from simulator.widgets.panel import Panel

    stand = {"metering": "txv", "outdoor": "95", "return_db": "80", "return_wb": "67"}
    first = {
        "TestStandPanel": {"do": "set", **stand, "airflow": "100", "faults": [], "units": "us"},
        "CallPanel": {"do": "look_around", "units": "us"},
        "DebriefPanel": {"do": "debrief", "units": "us"},
        "LessonPanel": {"do": "open"},
    }
    panels = [shown for shown in widget._instances.values() if isinstance(shown, Panel)]
    try:
        assert panels, "this page shows no panel"
        for panel in panels:
            answers: list[dict[str, Any]] = []
            panel.send = answers.append
            panel._receive(panel, {**first[type(panel).__name__], "id": 1}, [])
            (answer,) = answers
            assert "problem" not in answer, answer["problem"]
            assert set(answer) > {"id"}, "the answer is empty"
    finally:
        visits.records().close()
        shutil.rmtree(os.environ["BENCHCALL_DATA"])


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Put one cell before and one after those of each notebook."""
    books: dict[IPyNbFile, list[pytest.Item]] = {}
    for item in items:
        if isinstance(item, IPyNbCell):
            books.setdefault(item.parent, []).append(item)
    for book, cells in books.items():
        at = items.index(cells[0])
        items[at:at] = [_cell(book, "a visit", -1, have_a_visit)]
        at = items.index(cells[-1]) + 1
        items[at:at] = [_cell(book, "opening messages", len(cells), ask_every_panel)]


def _cell(book: IPyNbFile, name: str, number: int, step: Any) -> pytest.Item:
    source = f"from typing import Any\n\n{inspect.getsource(step)}\n{step.__name__}()"
    cell: pytest.Item = IPyNbCell.from_parent(
        book,
        name=name,
        cell_num=number,
        cell=nbformat.v4.new_code_cell(source),
        options=defaultdict(bool),
    )
    return cell
