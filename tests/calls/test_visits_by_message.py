"""What a visit refuses, in one sentence and without changing anything; what it keeps."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from simulator.calls import event_storage
from simulator.calls.visit import fold
from simulator.serve.visits import visits
from simulator.serve.visits.visits import CallDesk
from tests.scoring.played import desk_for, do, go, good_capstone


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> CallDesk:
    """The capstone, just arrived."""
    return desk_for("mallorn", tmp_path, monkeypatch)


REFUSED: list[tuple[dict[str, Any], str]] = [
    ({"do": "go", "place": "roof"}, "no place called"),
    ({"do": "go", "place": "customer"}, "there already"),
    ({"do": "prepare", "step": "dance"}, "no preparation called"),
    ({"do": "prepare", "step": "zero_manometer"}, "done elsewhere"),
    ({"do": "measure", "test": "aura", "technique": "careful"}, "no test called"),
    ({"do": "measure", "test": "ask_when", "technique": "rudely"}, "cannot be taken that way"),
    ({"do": "measure", "test": "suction_pressure", "technique": "careful"}, "done elsewhere"),
    ({"do": "wait", "minutes": ""}, "is missing"),
    ({"do": "wait", "minutes": "a while"}, "must be a number"),
    ({"do": "wait", "minutes": "0"}, "must be 1 to 120"),
    ({"do": "wait", "minutes": "999"}, "must be 1 to 120"),
    ({"do": "start"}, "running already"),
    ({"do": "mark", "cause": "gremlins", "as": "likely"}, "no cause called"),
    ({"do": "mark", "cause": "undercharge", "as": "guilty"}, "open, likely or ruled out"),
    ({"do": "declare", "causes": [], "cited": []}, "at least one cause"),
    ({"do": "declare", "causes": ["gremlins"], "cited": []}, "no cause called"),
    ({"do": "declare", "causes": ["no_fault", "undercharge"], "cited": []}, "cannot stand beside"),
    ({"do": "declare", "causes": ["undercharge"], "cited": [99]}, "no reading number 99"),
    ({"do": "declare", "causes": ["undercharge"], "cited": ["x"]}, "by their number"),
    ({"do": "declare", "causes": "all", "cited": []}, "must be a list"),
    ({"do": "repair", "repair": "pray", "amount": None}, "no repair called"),
    ({"do": "repair", "repair": "add_refrigerant", "amount": None}, "is missing"),
    ({"do": "repair", "repair": "add_refrigerant", "amount": "some"}, "must be a number"),
    ({"do": "repair", "repair": "add_refrigerant", "amount": "9000"}, "must be"),
    ({"do": "repair", "repair": "seal_supply", "amount": None}, "Stop the system first"),
    ({"do": "write_up", "text": "   "}, "empty"),
    ({"do": "write_up", "text": "x" * 5000}, "below 4,000"),
    ({"do": "close"}, "State your finding"),
    ({"do": "conjure"}, "not something a visit knows"),
    ({}, "not something a visit knows"),
]


@pytest.mark.parametrize(("message", "said"), REFUSED, ids=lambda x: str(x)[:50])
def test_what_cannot_be_done_is_said_and_changes_nothing(
    desk: CallDesk, message: dict[str, Any], said: str
) -> None:
    before = desk.visit
    answer = desk.act({"units": "us", **message})
    assert said in answer["problem"]
    assert desk.visit == before
    assert "view" in answer


def test_a_missing_step_is_named(desk: CallDesk) -> None:
    do(desk, "go", place="outdoor_unit")
    answer = desk.act({"do": "measure", "test": "suction_pressure", "technique": "careful"})
    assert "First: Purge and connect" in answer["problem"]


def test_nothing_can_be_done_after_closing(desk: CallDesk) -> None:
    do(desk, "declare", causes=["no_fault"], cited=[])
    do(desk, "close")
    for message in ({"do": "wait", "minutes": "5"}, {"do": "mark", "cause": "undercharge"}):
        assert "closed" in desk.act(message)["problem"]


def test_junk_of_every_type_is_answered(desk: CallDesk) -> None:
    chance = np.random.default_rng(5)
    junk = [None, 3, -1.5, True, [], {}, [{}], "careful", "\x00", "9" * 400, float("nan")]
    keys = ("do", "place", "step", "test", "technique", "minutes", "cause", "as", "causes",
            "cited", "repair", "amount", "text", "system", "units")  # fmt: skip
    verbs = ("go", "prepare", "measure", "wait", "mark", "declare", "repair", "write_up")
    for _ in range(300):
        message = {str(chance.choice(keys)): junk[chance.integers(len(junk))] for _ in range(4)}
        message["do"] = str(chance.choice(verbs))
        answer = desk.act(message)
        assert set(answer) <= {"view", "problem"}
    numbers = [event.seq for event in desk.visit.events]
    assert numbers == list(range(len(numbers)))


def test_a_reload_is_the_fold_of_what_was_stored(desk: CallDesk) -> None:
    good_capstone(desk)
    token = desk._record.token
    visits.records.cache_clear()
    again = visits.open_desk(token)
    assert again.visit == desk.visit
    assert again.view("us") == desk.view("us")
    assert fold(desk.visit.events) == desk.visit
    minutes = [event.minute for event in desk.visit.events]
    assert minutes == sorted(minutes)


def test_two_pages_of_one_visit_lose_and_double_nothing(desk: CallDesk) -> None:
    other = visits.open_desk(desk._record.token)
    do(desk, "measure", test="ask_when", technique="careful")
    answer = other.act({"do": "measure", "test": "ask_rooms", "technique": "careful"})
    assert "moved on from another page" in answer["problem"]
    assert len(answer["view"]["sheet"]) == 1
    do(other, "measure", test="ask_rooms", technique="careful")
    assert len(other.visit.readings) == 2


def test_every_event_survives_storage(desk: CallDesk) -> None:
    good_capstone(desk)
    for event in desk.visit.events:
        back = event_storage.restored(
            event.seq, event_storage.kind(event), event.minute, event_storage.payload(event)
        )
        assert back == event
    with pytest.raises(event_storage.DamagedEvent):
        event_storage.restored(1, "Teleported", 0.0, {})


def test_a_reading_taken_after_start_drifts_until_settled(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk = desk_for("rooke", tmp_path, monkeypatch)
    do(desk, "start")
    go(desk, "outdoor_unit", "connect_gauges", "suction_line_temperature")
    early = desk.visit.readings[-1]
    do(desk, "wait", minutes="30")
    do(desk, "measure", test="suction_line_temperature", technique="careful")
    late = desk.visit.readings[-1]
    assert early.settled < 15.0 < late.settled
    assert early.reading.value is not None
    assert late.reading.value is not None


def test_a_unit_that_nothing_settles_is_said_to_be_one(
    desk: CallDesk, monkeypatch: pytest.MonkeyPatch
) -> None:
    now = desk._site.moment(desk.visit, desk.visit.minute)
    lost = replace(now, now=replace(now.now, state="no_solution"))
    monkeypatch.setattr(type(desk._site), "moment", lambda *_: lost)
    told = do(desk, "wait", minutes="1")["view"]["system"]
    assert told["state"] == "off"
    assert "no settled state" in told["text"]
    assert "undo what was last changed" in told["text"]


def test_charge_test_without_proven_air_is_noted(desk: CallDesk) -> None:
    go(desk, "outdoor_unit", "connect_gauges", "liquid_pressure")
    assert any("Airflow" in text for text in desk.visit.readings[-1].problems)
