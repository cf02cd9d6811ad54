"""Practice or test, how long, released or held: what a class asks of a visit."""

from pathlib import Path

import pytest

from simulator.records.class_records import ClassRecord
from simulator.records.class_visits import ClassVisits
from simulator.records.visit_records import RecordsError
from simulator.serve.classes import rules
from simulator.serve.classes.files import (
    assignments,
    class_calls,
    class_records,
    class_visits,
    overrides,
)
from simulator.serve.instructor import class_board, class_sheets
from simulator.serve.instructor.class_debrief_pages import under_way
from simulator.serve.visits import visits
from simulator.serve.visits.visits import CallDesk
from tests.scoring.played import do, good_capstone, hasty_capstone


@pytest.fixture
def one_class(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> ClassRecord:
    """A class of two that works two calls, in records of its own."""
    monkeypatch.setenv("BENCHCALL_DATA", str(tmp_path))
    visits.records.cache_clear()
    opened = class_records().open_class("A", ["mallorn", "rooke"])
    class_records().join(opened.code, "first-trainee", "Ana")
    class_records().join(opened.code, "second-trainee", "Ben")
    return opened


def begun(call: str, trainee: str) -> tuple[str, CallDesk]:
    """A visit as the start page begins it."""
    token = visits.start_visit(call, trainee)
    class_visits().note(token, call, trainee)
    return token, visits.open_desk(token)


def test_a_call_is_practice_until_it_is_assigned_as_a_test(one_class: ClassRecord) -> None:
    token, desk = begun("mallorn", "first-trainee")
    good_capstone(desk)
    assert not rules.is_test(token)
    assert "debrief" in desk.debrief("us")


def test_the_scores_of_a_test_wait_until_they_are_released(one_class: ClassRecord) -> None:
    assignments().assign(one_class.code, "mallorn", "test", None)
    token, desk = begun("mallorn", "first-trainee")
    good_capstone(desk)
    assert rules.is_test(token)
    assert desk.debrief("us") == {"problem": rules.HELD}
    assignments().release(one_class.code, "mallorn")
    assert rules.is_test(token)  # it was one, and stays one
    assert "debrief" in desk.debrief("us")
    assert assignments().of(one_class.code)["mallorn"].is_released


def test_a_visit_keeps_the_terms_it_was_begun_under(one_class: ClassRecord) -> None:
    token, _ = begun("mallorn", "first-trainee")
    assignments().assign(one_class.code, "mallorn", "test", 60.0)
    assert not rules.is_test(token)
    later, _ = begun("mallorn", "second-trainee")
    assert rules.is_test(later)
    assignments().assign(one_class.code, "mallorn", "practice", None)
    assert rules.is_test(later)
    assert not rules.is_held(later)  # others may look the answer up now, so may they


def test_who_is_still_at_a_test_is_counted(one_class: ClassRecord) -> None:
    assignments().assign(one_class.code, "mallorn", "test", None)
    rows = class_board.board(one_class)
    assert under_way([row for row in rows if row.call_id == "mallorn"]) == 0
    _, ana = begun("mallorn", "first-trainee")
    begun("mallorn", "second-trainee")
    for still in (2, 1):
        rows = class_board.board(one_class)
        assert under_way([row for row in rows if row.call_id == "mallorn"]) == still
        if still == 2:
            good_capstone(ana)


def test_nobody_looks_a_test_up_in_a_private_window(one_class: ClassRecord) -> None:
    token = visits.start_visit("mallorn", "a-private-window")
    hasty_capstone(desk := visits.open_desk(token))
    assignments().assign(one_class.code, "mallorn", "test", None)
    assert not rules.may_start("mallorn", "a-private-window")
    assert rules.may_start("mallorn", "first-trainee")
    assert rules.may_start("rooke", "a-private-window")
    assert desk.debrief("us") == {"problem": rules.HELD}
    assignments().release(one_class.code, "mallorn")
    assert rules.may_start("mallorn", "a-private-window")
    assert "debrief" in desk.debrief("us")


def test_another_class_may_practise_what_this_one_is_tested_with(one_class: ClassRecord) -> None:
    other = class_records().open_class("B", ["mallorn"])
    class_records().join(other.code, "third-trainee", "Cay")
    assignments().assign(one_class.code, "mallorn", "test", None)
    token, _ = begun("mallorn", "third-trainee")
    assert not rules.is_test(token)
    assert not rules.is_held(token)


def test_a_test_is_begun_once(one_class: ClassRecord) -> None:
    assert class_visits().begun("first-trainee", "mallorn") is None
    practised, _ = begun("mallorn", "first-trainee")
    assignments().assign(one_class.code, "mallorn", "test", None)
    assert class_visits().begun("first-trainee", "mallorn") is None
    token, _ = begun("mallorn", "first-trainee")
    assert class_visits().begun("first-trainee", "mallorn") == token != practised
    assert class_visits().begun("second-trainee", "mallorn") is None
    assignments().assign(one_class.code, "mallorn", "practice", None)
    assert class_visits().begun("first-trainee", "mallorn") is None


def test_time_runs_out_on_site_and_can_be_added(one_class: ClassRecord) -> None:
    assignments().assign(one_class.code, "rooke", "test", 30.0)
    _, ana = begun("rooke", "first-trainee")
    _, ben = begun("rooke", "second-trainee")
    for desk in (ana, ben):
        do(desk, "wait", minutes="30")
        assert "30 minutes" in desk.act({"do": "wait", "minutes": "5"})["problem"]
        assert "used up" in " ".join(desk.view("us")["terms"])
        assert "problem" not in desk.act({"do": "mark", "cause": "undercharge", "as": "likely"})
    assignments().extend(one_class.code, "rooke", 10.0, "first-trainee")
    do(ana, "wait", minutes="5")
    assert "40 minutes are allowed" in " ".join(ana.view("us")["terms"])
    assert "30 minutes" in ben.act({"do": "wait", "minutes": "5"})["problem"]
    assignments().extend(one_class.code, "rooke", 20.0)
    do(ben, "wait", minutes="5")
    assert assignments().of(one_class.code)["rooke"].allowed("first-trainee") == 60.0
    do(ben, "declare", causes=["undercharge"], cited=[])


def test_an_act_that_would_end_after_the_time_is_not_begun(one_class: ClassRecord) -> None:
    """A visit ends with its time: no reading, no repair and no wait runs past it."""
    assignments().assign(one_class.code, "mallorn", "test", 30.0)
    _, desk = begun("mallorn", "first-trainee")
    do(desk, "go", place="air_handler")
    do(desk, "prepare", step="drill_test_holes")
    do(desk, "wait", minutes=str(20 - desk.visit.minute))
    before = desk.visit.events
    for message, minutes in (
        ({"do": "measure", "test": "coil_airflow", "technique": "careful"}, 12),
        ({"do": "wait", "minutes": "11"}, 11),
    ):
        answer = desk.act(message)
        said = f"That takes {minutes} min, and 10 min of the 30 allowed on site are left."
        assert answer["problem"].startswith(said)
        assert answer["view"]["visit"]["minutes"] == 20
        assert not answer["view"]["sheet"]
    assert desk.visit.events == before
    do(desk, "stop")
    assert "That takes" in desk.act({"do": "repair", "repair": "seal_return"})["problem"]
    assert desk.visit.place == "air_handler"
    # What ends with the time is taken, and what is written needs none.
    do(desk, "wait", minutes="7")
    do(desk, "measure", test="static_supply", technique="careful")
    assert desk.visit.minute == 30.0
    do(desk, "declare", causes=["undercharge"], cited=[])
    do(desk, "write_up", text="The time was up.")
    do(desk, "close")


def test_everybodys_time_is_told_once_and_stays_when_scores_are_released(
    one_class: ClassRecord,
) -> None:
    assignments().assign(one_class.code, "rooke", "test", 30.0)
    assignments().extend(one_class.code, "rooke", 20.0)
    assignments().extend(one_class.code, "rooke", 5.0, "first-trainee")
    for _ in range(2):
        own = assignments().of(one_class.code)["rooke"]
        assert (own.allowed(""), own.allowed("first-trainee")) == (50.0, 55.0)
        assignments().release(one_class.code, "rooke")


def test_old_extensions_do_not_add_to_new_terms(one_class: ClassRecord) -> None:
    assignments().assign(one_class.code, "rooke", "test", 30.0)
    assignments().extend(one_class.code, "rooke", 10.0)
    assignments().assign(one_class.code, "rooke", "test", 40.0)
    assert assignments().of(one_class.code)["rooke"].allowed("second-trainee") == 40.0


def test_a_call_is_taken_back_and_assigned_again(one_class: ClassRecord) -> None:
    """Who has begun goes on and is seen; nobody else begins it for the class."""
    token, desk = begun("mallorn", "first-trainee")
    class_calls().withdraw(one_class.code, "mallorn")
    assert class_records().by_code(one_class.code).calls == ("rooke",)
    good_capstone(desk)
    assert "debrief" in desk.debrief("us")
    own = class_records().by_code(one_class.code)
    rows = [row for row in class_board.board(own) if row.token]
    assert [(row.token, row.stage) for row in rows] == [(token, "closed")]
    assert "Bill up, sticky rooms" in class_sheets.item_sheet(own)
    later, _ = begun("mallorn", "second-trainee")
    assert later not in class_visits().tokens(one_class.code)
    class_calls().add(one_class.code, "mallorn")
    again, _ = begun("mallorn", "second-trainee")
    assert again in class_visits().tokens(one_class.code)
    with pytest.raises(RecordsError, match="already"):
        class_calls().add(one_class.code, "mallorn")


def test_a_test_that_somebody_waits_for_is_not_taken_back(one_class: ClassRecord) -> None:
    assignments().assign(one_class.code, "rooke", "test", None)
    class_calls().withdraw(one_class.code, "rooke")  # nobody has begun it
    assert rules.may_start("rooke", "somebody-outside")
    class_calls().add(one_class.code, "rooke")
    assert assignments().of(one_class.code)["rooke"].mode == "practice"
    assignments().assign(one_class.code, "mallorn", "test", None)
    begun("mallorn", "first-trainee")
    with pytest.raises(RecordsError, match="Release the scores"):
        class_calls().withdraw(one_class.code, "mallorn")
    assignments().release(one_class.code, "mallorn")
    class_calls().withdraw(one_class.code, "mallorn")
    with pytest.raises(RecordsError, match="at least one"):
        class_calls().withdraw(one_class.code, "rooke")


def test_terms_that_make_no_sense_are_refused(one_class: ClassRecord) -> None:
    own = assignments()
    for mode, minutes, said in (
        ("exam", None, "without, or as a test"),
        ("test", 5.0, "Allow 10"),
        ("test", float("nan"), "Allow 10"),
    ):
        with pytest.raises(RecordsError, match=said):
            own.assign(one_class.code, "mallorn", mode, minutes)
    with pytest.raises(RecordsError, match="does not work that call"):
        own.assign(one_class.code, "sorrel", "test", None)
    with pytest.raises(RecordsError, match="no limit"):
        own.extend(one_class.code, "mallorn", 10.0)
    own.assign(one_class.code, "mallorn", "test", 60.0)
    for minutes, trainee, said in (
        (0.0, "", "more than 0"),
        (float("nan"), "", "more than 0"),
        (10.0, "somebody-else", "no such seat"),
    ):
        with pytest.raises(RecordsError, match=said):
            own.extend(one_class.code, "mallorn", minutes, trainee)


def test_overrides_are_added_and_never_replaced(one_class: ClassRecord) -> None:
    token, desk = begun("mallorn", "first-trainee")
    hasty_capstone(desk)
    for points, reason, said in (
        (50.0, "too short", "reason of 10"),
        (50.0, "x" * 501, "reason of 10"),
        (50.0, "a reason\x00 with a zero", "reason of 10"),
        (101.0, "a reason that is long enough", "0 to 100"),
        (float("nan"), "a reason that is long enough", "0 to 100"),
    ):
        with pytest.raises(RecordsError, match=said):
            overrides().add(token, points, reason)
    assert desk.debrief("us")["debrief"]["by_hand"] is None
    overrides().add(token, 50.0, "  the power went   out in the room ")
    overrides().add(token, 60.0, "and the meter was the wrong one")
    assert [(one.points, one.reason) for one in overrides().of(token)] == [
        (50.0, "the power went out in the room"),
        (60.0, "and the meter was the wrong one"),
    ]
    shown = {"points": 60.0, "own_reason": "and the meter was the wrong one"}
    assert desk.debrief("us")["debrief"]["by_hand"] == shown


def test_acts_are_dated_when_they_are_stored(one_class: ClassRecord) -> None:
    _, desk = begun("mallorn", "first-trainee")
    (arrived,) = class_visits().pulses(one_class.code)
    do(desk, "measure", test="ask_when", technique="careful")
    (asked,) = class_visits().pulses(one_class.code)
    assert (arrived.count, asked.count) == (1, 2)
    assert asked.stored_at > arrived.stored_at


def test_a_trainee_reads_the_terms_on_the_call_page(one_class: ClassRecord) -> None:
    _, practice = begun("mallorn", "first-trainee")
    assert practice.view("us")["terms"] == []
    assignments().assign(one_class.code, "mallorn", "test", 60.0)
    _, test = begun("mallorn", "second-trainee")
    told = ["This call is a test.", "60 minutes are allowed on site; 60 are left."]
    assert test.view("us")["terms"] == told


def test_a_click_asks_the_class_once(
    one_class: ClassRecord, monkeypatch: pytest.MonkeyPatch
) -> None:
    _, desk = begun("mallorn", "first-trainee")
    asked: list[str] = []
    standing = ClassVisits.standing
    monkeypatch.setattr(
        ClassVisits, "standing", lambda own, token: asked.append(token) or standing(own, token)
    )
    do(desk, "measure", test="ask_when", technique="careful")
    assert len(asked) == 1


def test_a_page_hears_of_a_pause_without_an_act(one_class: ClassRecord) -> None:
    _, desk = begun("mallorn", "first-trainee")
    assert desk.act({"do": "terms"}) == {"terms": [], "is_paused": False}
    assert desk.view("us")["in_class"]
    class_records().freeze(one_class.code, True)
    assert desk.act({"do": "terms"}) == {"terms": [rules.FROZEN], "is_paused": True}
