"""The coach at the desk: in practice only, each rung in the log, acts go on while it thinks."""

import json
import time
from pathlib import Path
from typing import Any

import pytest

from simulator.calls.events import Hinted
from simulator.diagnosis import coach
from simulator.diagnosis.coach import EXPECTS
from simulator.diagnosis.interview import ASKED
from simulator.records.class_records import ClassRecord
from simulator.serve.classes import rules
from simulator.serve.classes.files import assignments, class_records, class_visits
from simulator.serve.visits import coaching, visits
from simulator.serve.visits.visits import CallDesk
from tests.calls.test_secrecy import twin
from tests.scoring.played import desk_for, do, go, good_capstone


def begun(call: str, trainee: str) -> CallDesk:
    """A visit as the start page begins it."""
    token = visits.start_visit(call, trainee)
    class_visits().note(token, call, trainee)
    return visits.open_desk(token)


@pytest.fixture
def one_class(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> ClassRecord:
    monkeypatch.setenv("BENCHCALL_DATA", str(tmp_path))
    visits.records.cache_clear()
    opened = class_records().open_class("A", ["mallorn", "rooke"])
    class_records().join(opened.code, "first-trainee", "Ana")
    return opened


def ask(desk: CallDesk, patience: float = 60.0) -> dict[str, Any]:
    """What the coach says, however long it thinks; asked as the page asks."""
    until = time.monotonic() + patience
    while True:
        answer = desk.act({"do": "coach", "seen": len(desk.visit.hints), "units": "us"})
        if not answer.get("coach", {}).get("is_thinking"):
            return answer
        assert time.monotonic() < until
        time.sleep(0.05)


def stored(desk: CallDesk) -> list[Hinted]:
    kept = visits.records().events(desk._record.token)
    return [event for event in kept if isinstance(event, Hinted)]


@pytest.mark.parametrize("mode", ["test", "alone"])
def test_where_the_class_wants_none_the_coach_is_silent(one_class: ClassRecord, mode: str) -> None:
    assignments().assign(one_class.code, "mallorn", mode, None)
    desk = begun("mallorn", "first-trainee")
    assert rules.is_test(desk._record.token) == (mode == "test")
    assert desk.view("us")["coach"] is None
    for seen in (0, 5, None, "x", -1):
        answer = desk.act({"do": "coach", "seen": seen, "units": "us"})
        assert answer == {"problem": rules.NO_COACH}
    assert stored(desk) == []
    # Practice of another call of the same class is coached.
    assert "coach" in ask(begun("rooke", "first-trainee"))


def test_nobody_outside_is_coached_on_a_call_under_test(one_class: ClassRecord) -> None:
    desk = begun("mallorn", "a-private-window")
    assert desk.view("us")["coach"] == {"taken": 0, "rung": 0, "said": []}
    assignments().assign(one_class.code, "mallorn", "test", None)
    assert desk.act({"do": "coach", "seen": 0}) == {"problem": rules.NO_COACH}
    assert desk.view("us")["coach"] is None
    assignments().release(one_class.code, "mallorn")
    assert "coach" in ask(desk)


def test_every_rung_is_an_event_and_a_missed_answer_counts_once(one_class: ClassRecord) -> None:
    desk = begun("mallorn", "first-trainee")
    first = ask(desk)["coach"]
    assert (first["taken"], first["rung"]) == (1, 1)
    # The page that never got the answer asks as before, and is told the same.
    assert desk.act({"do": "coach", "seen": 0, "units": "us"})["coach"] == first
    assert [(e.rung, e.about) for e in stored(desk)] == [(1, "consent")]
    for rung in (2, 3, 4):
        assert ask(desk)["coach"]["rung"] == rung
    assert ask(desk)["coach"]["rung"] == 4
    assert [(e.rung, e.about) for e in stored(desk)] == [(n, "consent") for n in (1, 2, 3, 4)]
    # It outlives a reload, and the next thing to look at begins a ladder of its own.
    again = visits.open_desk(desk._record.token)
    assert again.view("us")["coach"]["rung"] == 4
    do(again, "prepare", step="consent")
    assert ask(again)["coach"]["rung"] == 1
    class_records().freeze(one_class.code, True)
    assert again.act({"do": "coach", "seen": 9}) == {"problem": rules.FROZEN}


def test_the_site_is_not_asked_and_twins_hear_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The same sheet in front of another truth: the same hints, and not one solved plant more."""
    desk = twin(desk_for("mallorn", tmp_path / "a", monkeypatch), supply_leak=0.25)
    go(
        desk,
        "customer",
        "consent",
        "ask_when ask_changed ask_touched ask_rooms read_bill read_history",
    )
    go(desk, "air_handler", "hazard_look_air_handler drill_test_holes", "look_filter static_supply")
    before, told = desk.visit, {}
    for faults in ({"supply_leak": 0.25}, {"undercharge": 0.3}, {"weak_blower": 0.5}):
        asked = coaching.Coach(twin(desk, **faults)._site.call)
        while (hint := asked.asked(before, 0)) is None:
            time.sleep(0.05)
        told[json.dumps(faults)] = (hint.rung, hint.about, hint.said)
    assert len(set(told.values())) == 1
    monkeypatch.setattr(type(desk._site), "moment", None)
    monkeypatch.setattr(type(desk._site), "installation", None)
    assert ask(desk)["coach"]["said"] == list(hint.said)


def test_acts_go_on_while_the_coach_thinks(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    desk = desk_for("mallorn", tmp_path, monkeypatch)
    go(
        desk,
        "customer",
        "consent",
        "ask_when ask_changed ask_touched ask_rooms read_bill read_history",
    )
    thinking, told = coach.hint, tmp_path / "told"

    def slowly(*about: Any) -> coach.Hint:
        for _ in range(6000):  # by a file, for it may be thought in a process of its own
            if told.exists():
                break
            time.sleep(0.01)
        else:
            raise AssertionError("acts waited for the coach")
        return thinking(*about)

    monkeypatch.setattr(coaching, "hint", slowly)
    # Both answer although nothing is thought to its end before the file is there.
    assert desk.act({"do": "coach", "seen": 0}) == {"coach": coaching.THINKING}
    do(desk, "go", place="air_handler")
    assert stored(desk) == []
    told.touch()
    # It is thought over again for where the visit stands now.
    assert ask(desk)["coach"]["taken"] == 1
    assert stored(desk)[0].about == "hazard_look_air_handler"


def test_a_hint_follows_the_units_though_it_was_told_before(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The same kelvin either way: what is told in °F reads in °C once the units are switched."""
    desk = desk_for("mallorn", tmp_path, monkeypatch)
    go(desk, "customer", "consent", " ".join(ASKED))
    while (rung := ask(desk)["coach"]["rung"]) < EXPECTS:
        assert rung == len(desk.visit.hints)
    said = " ".join(desk.view("us")["coach"]["said"])
    in_si = " ".join(desk.view("si")["coach"]["said"])
    assert "°F" in said
    assert "°C" in in_si
    assert "°F" not in in_si
    missed = desk.act({"do": "coach", "seen": EXPECTS - 1, "units": "si"})
    assert " ".join(missed["coach"]["said"]) == in_si
    again = visits.open_desk(desk._record.token)
    assert " ".join(again.view("us")["coach"]["said"]) == said
    assert len(desk.visit.hints) == EXPECTS


def test_what_fails_in_a_thought_is_raised_where_it_is_asked(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk = desk_for("mallorn", tmp_path, monkeypatch)
    go(
        desk,
        "customer",
        "consent",
        "ask_when ask_changed ask_touched ask_rooms read_bill read_history",
    )

    def fails(*_: Any) -> coach.Hint:
        raise ZeroDivisionError

    with monkeypatch.context() as broken:
        broken.setattr(coaching, "hint", fails)
        with pytest.raises(ZeroDivisionError):
            ask(desk)
    assert ask(desk)["coach"]["rung"] == 1


def test_a_closed_visit_has_no_coach_and_tells_what_was_asked(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk = desk_for("mallorn", tmp_path, monkeypatch)
    ask(desk)
    ask(desk)
    good_capstone(desk)
    assert desk.act({"do": "coach", "seen": 2}) == {"problem": rules.LEFT}
    assert desk.view("us")["coach"] is None
    told = desk.debrief("us")["debrief"]
    assert told["hints"][0]["text"] == "Hints taken: 2. The deepest was a place to look."
    assert sum("Asked the coach" in step["text"] for step in told["timeline"]) == 2
    (charged,) = [part for part in desk.odds()["parts"] if part["name"] == "Efficiency"]
    assert sum("Hint" in why["text"] for why in charged["because"]) == 2
