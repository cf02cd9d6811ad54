"""What a debrief page may ask for, by whom and when.

No outside source: who may see what is this project's own promise.
"""

import threading
from pathlib import Path
from typing import Any

import pytest

from simulator.serve.classes.files import class_records, class_visits, reflections
from simulator.serve.kernels.beside import Beside, Steps
from simulator.serve.visits import visits
from simulator.serve.visits.closed_desk import NOT_CLOSED, NOT_YOURS
from simulator.serve.visits.debrief_page import DebriefPage
from simulator.serve.visits.next_call import next_call
from simulator.serve.visits.visits import CallDesk
from tests.scoring.played import desk_for, hasty_capstone
from tests.serve.running import soon

ME, OTHER = "trainee-of-the-tests", "somebody-elses-browser"
REPLAY = {"do": "replay", "minute": 3, "test": "smoke_return", "units": "us"}
MESSAGES: list[dict[str, Any]] = [
    {"do": "debrief"},
    {"do": "odds"},
    {"do": "path"},
    {"do": "explain", "text": "because"},
    REPLAY,
]


def answered(desk: CallDesk, message: dict[str, Any], trainee: str) -> dict[str, Any]:
    """What a fresh page of somebody's browser is told."""
    return DebriefPage(trainee).answered(desk, message)


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> CallDesk:
    return desk_for("mallorn", tmp_path, monkeypatch)


@pytest.mark.parametrize("message", MESSAGES, ids=lambda message: str(message["do"]))
def test_nothing_is_told_of_an_open_visit(desk: CallDesk, message: dict[str, Any]) -> None:
    assert answered(desk, message, ME) == {"problem": NOT_CLOSED}


@pytest.mark.parametrize("message", [REPLAY, MESSAGES[3]], ids=["replay", "explain"])
def test_nobody_tries_or_writes_in_anothers_visit(desk: CallDesk, message: dict[str, Any]) -> None:
    hasty_capstone(desk)
    assert answered(desk, message, OTHER) == {"problem": NOT_YOURS}
    assert answered(desk, message, "") == {"problem": NOT_YOURS}
    assert reflections().newest(desk.record.token) == ""
    assert not answered(desk, {"do": "debrief"}, OTHER)["debrief"]["is_own"]


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ({}, "The minute of the visit is missing; give a number from 0 to 28 min."),
        ({"minute": "soon"}, "must be a number from 0 to 28 min, not 'soon'"),
        ({"minute": -1}, "must be 0 to 28 min"),
        ({"minute": 10**400}, "The minute of the visit"),
        ({"minute": float("nan")}, "The minute of the visit"),
        ({"minute": [3]}, "The minute of the visit is missing"),
        ({"minute": True}, "The minute of the visit is missing"),
        ({"minute": 3}, "Choose what you would have measured."),
        ({"minute": 3, "test": "the_answer"}, "Choose what you would have measured."),
        ({"minute": 3, "test": ["smoke_return"]}, "Choose what you would have measured."),
    ],
)
def test_nonsense_gets_one_sentence(desk: CallDesk, asked: dict[str, Any], says: str) -> None:
    hasty_capstone(desk)
    answer = answered(desk, {"do": "replay", **asked}, ME)
    assert set(answer) == {"problem"}
    assert says in answer["problem"]


def test_an_answer_is_kept_and_comes_back(desk: CallDesk) -> None:
    hasty_capstone(desk)
    told = answered(desk, {"do": "explain", "text": "  The charge was never low.  "}, ME)
    assert told == {"own_answer": "The charge was never low."}
    again = visits.open_desk(desk.record.token)
    opened = answered(again, {"do": "debrief", "units": "si"}, ME)["debrief"]
    assert opened["to_explain"]["own_answer"] == "The charge was never low."
    assert opened["is_own"]
    for text in ("", "   ", "x" * 2001):
        assert "problem" in answered(again, {"do": "explain", "text": text}, ME)
    assert reflections().newest(desk.record.token) == "The charge was never low."
    # An answer is no event of the visit.
    assert again.visit.events == desk.visit.events


def test_the_next_call_is_chosen_by_what_the_home_page_shows(desk: CallDesk) -> None:
    hasty_capstone(desk)
    calls = {call["id"]: call for call in visits.list_calls()}
    low, high = (next_call(desk.record, points) for points in (10, 90))
    assert low is not None
    assert high is not None
    assert low["call"]["id"] != desk.record.call
    assert low["call"] == calls[low["call"]["id"]]  # nothing but what is listed
    assert low["call"]["level"] <= high["call"]["level"]
    easy = desk_of("achterberg", 90)
    assert easy["call"]["level"] > calls["achterberg"]["level"]
    assert easy["why"] == "It is a step harder."


def desk_of(call: str, points: float) -> dict[str, Any]:
    """The next call after a visit of another one."""
    found = next_call(visits.records().record(visits.start_visit(call, ME)), points)
    assert found is not None
    return found


def test_a_class_comes_first(desk: CallDesk) -> None:
    code = class_records().open_class("A", ["mallorn", "rooke"]).code
    class_records().join(code, ME, "Ana")
    class_visits().note(desk.record.token, "mallorn", ME)
    hasty_capstone(desk)
    found = next_call(desk.record, 90)
    assert found is not None
    assert found["call"]["id"] == "rooke"
    assert found["why"] == "Your class works it."


def test_slow_answers_come_beside_the_page_and_once() -> None:
    asked = threading.Event()
    beside = Beside(lambda: {"odds": asked.wait(30.0)})
    assert beside.answer() == {"pending": True}
    asked.set()
    beside._thread.join(30.0)
    assert beside.answer() == beside.answer() == {"odds": True}


def test_work_that_tells_its_steps_is_told_with_them() -> None:
    steps, go_on = Steps(), threading.Event()

    def work() -> dict[str, Any]:
        steps.reach(2)
        return {"odds": go_on.wait(30.0)}

    beside = Beside(work, steps)
    assert soon(lambda: beside.answer() == {"pending": True, "step": 2})
    go_on.set()
    beside._thread.join(30.0)
    assert beside.answer() == {"odds": True}


def test_odds_are_worked_out_in_three_steps_in_their_order(desk: CallDesk) -> None:
    hasty_capstone(desk)
    reached: list[int] = []
    told = desk.odds("us", reached.append)
    assert reached == [1, 2, 3]
    assert {"odds", "causes", "total"} <= set(told)


def test_what_fails_beside_the_page_is_told_where_it_is_asked() -> None:
    def fails() -> dict[str, Any]:
        raise RuntimeError("not this time")

    beside = Beside(fails)
    beside._thread.join(30.0)
    with pytest.raises(RuntimeError, match="not this time"):
        beside.answer()


def test_the_page_answers_while_odds_are_worked_out(
    desk: CallDesk, monkeypatch: pytest.MonkeyPatch
) -> None:
    hasty_capstone(desk)
    go_on = threading.Event()
    monkeypatch.setattr(CallDesk, "odds", lambda *_: {"odds": go_on.wait(30.0)})
    page = DebriefPage(ME)
    assert page.answered(desk, {"do": "odds"}) == {"pending": True}
    assert page.answered(desk, {"do": "explain", "text": "so"}) == {"own_answer": "so"}
    assert page.answered(desk, {"do": "odds"}) == {"pending": True}
    go_on.set()
    for beside in page._under_way.values():
        beside._thread.join(30.0)
    assert page.answered(desk, {"do": "odds"}) == {"odds": True}
