"""A class: opened behind a password, joined by code, watched, paused, exported."""

import csv
import io
import time
from pathlib import Path

import pytest

from simulator.records.class_records import ClassRecords
from simulator.records.visit_records import RecordsError
from simulator.serve.classes.files import class_records, class_visits
from simulator.serve.instructor import class_board, class_sheets
from simulator.serve.instructor import door as instructor_door
from simulator.serve.instructor.door import TRIES, BadPassword, Door, set_password
from simulator.serve.visits import visits
from simulator.serve.visits.closed_visits import closed_card, final_card
from tests.scoring.played import do, good_capstone
from tests.serve.class_room import PASSWORD, begun


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Records of their own."""
    monkeypatch.setenv("BENCHCALL_DATA", str(tmp_path))
    visits.records.cache_clear()
    instructor_door.records.cache_clear()
    return tmp_path


def test_who_joins_is_on_the_board_and_in_the_file(here: Path) -> None:
    del here
    opened = class_records().open_class("  Tuesday   evening ", ["mallorn"])
    assert opened.name == "Tuesday evening"
    class_records().join(opened.code.lower(), "first-trainee", "Ana")
    class_records().join(opened.code, "second-trainee", "=cmd()")
    good_capstone(begun("mallorn", "first-trainee"))
    rows = class_board.board(opened)
    assert [(row.name, row.stage) for row in rows] == [("Ana", "closed"), ("=cmd()", "not begun")]
    assert rows[0].points is None  # the odds are not worked out for the board
    card = final_card(rows[0].token)
    assert card == final_card(rows[0].token) == closed_card(rows[0].token)
    rows = class_board.board(opened)
    assert rows[0].points is not None
    assert rows[0].points > 90
    told = list(csv.DictReader(io.StringIO(class_sheets.gradebook(opened))))
    assert float(told[0]["points of 100"]) == rows[0].points
    assert "Supply duct leaking" in told[0]["finding"]
    assert told[1]["name"] == "'=cmd()"  # a spreadsheet would have carried it out


def test_the_board_names_nobody_and_no_cause_by_itself(here: Path) -> None:
    del here
    opened = class_records().open_class("A", ["mallorn"])
    class_records().join(opened.code, "first-trainee", "Ana")
    good_capstone(begun("mallorn", "first-trainee"))
    shown = str(class_board.shown(class_board.board(opened), with_names=False))
    for word in ("Ana", "leak", "points"):
        assert word not in shown
    assert "Seat 1" in shown
    assert "Ana" in str(class_board.shown(class_board.board(opened), with_names=True))


def test_a_busy_moment_does_not_stay_on_the_board(
    here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    del here
    opened = class_records().open_class("A", ["mallorn"])
    class_records().join(opened.code, "first-trainee", "Ana")
    begun("mallorn", "first-trainee")

    def busy(token: str) -> None:
        raise RecordsError(token)

    with monkeypatch.context() as moment:
        moment.setattr(visits.records(), "events", busy)
        (row,) = class_board.board(opened)
        assert (row.name, row.call) == ("Ana", class_board.UNREADABLE)
    (row,) = class_board.board(opened)
    assert row.stage == "looking round"


def test_a_visit_outside_the_class_calls_does_not_count(here: Path) -> None:
    del here
    opened = class_records().open_class("A", ["mallorn"])
    class_records().join(opened.code, "first-trainee", "Ana")
    begun("rooke", "first-trainee")
    begun("mallorn", "somebody-else")
    assert class_visits().tokens(opened.code) == []


def test_who_works_another_call_is_told_and_seen_to_do_so(here: Path) -> None:
    del here
    opened = class_records().open_class("Tuesday", ["mallorn"])
    class_records().join(opened.code, "first-trainee", "Ana")
    (row,) = class_board.board(opened)
    assert row.call == class_board.NO_CALL
    desk = begun("rooke", "first-trainee")
    (said,) = desk.view("us")["terms"]
    assert "the class Tuesday does not count it" in said
    do(desk, "measure", test="ask_when", technique="careful")
    (row,) = class_board.board(opened)
    assert (row.call, row.stage) == (class_board.ELSEWHERE, "not begun")
    # Once the class's own call is begun it stands there, and says nothing of the kind.
    own = begun("mallorn", "first-trainee")
    assert own.view("us")["terms"] == []
    (row,) = class_board.board(opened)
    assert row.stage == "looking round"


def test_what_was_done_elsewhere_long_ago_or_in_no_class_is_no_news(here: Path) -> None:
    del here
    opened = class_records().open_class("Tuesday", ["mallorn"])
    class_records().join(opened.code, "first-trainee", "Ana")
    assert begun("rooke", "somebody-else").view("us")["terms"] == []
    do(begun("rooke", "first-trainee"), "measure", test="ask_when", technique="careful")
    assert class_visits().elsewhere(opened.code, time.time() - 60.0) == {"first-trainee"}
    assert class_visits().elsewhere(opened.code, time.time() + 60.0) == set()


def test_a_paused_class_keeps_what_was_done_and_takes_nothing_more(here: Path) -> None:
    del here
    opened = class_records().open_class("A", ["mallorn"])
    class_records().join(opened.code, "first-trainee", "Ana")
    desk = begun("mallorn", "first-trainee")
    do(desk, "measure", test="ask_when", technique="careful")
    class_records().freeze(opened.code, True)
    answer = desk.act({"do": "measure", "test": "ask_changed", "technique": "careful"})
    assert "paused" in answer["problem"]
    assert "paused" in " ".join(answer["view"]["terms"])
    assert len(answer["view"]["sheet"]) == 1
    class_records().freeze(opened.code, False)
    do(desk, "measure", test="ask_changed", technique="careful")


@pytest.mark.parametrize(
    ("name", "calls", "said"),
    [("", ["mallorn"], "name"), ("x" * 81, ["mallorn"], "name"), ("A", [], "at least one call")],
)
def test_a_class_without_name_or_call_is_refused(
    here: Path, name: str, calls: list[str], said: str
) -> None:
    with pytest.raises(RecordsError, match=said):
        ClassRecords(here / "classes.sqlite").open_class(name, calls)


@pytest.mark.parametrize("name", ["", "   ", "x" * 61, "a\x00b"])
def test_a_name_that_is_none_does_not_join(here: Path, name: str) -> None:
    del here
    opened = class_records().open_class("A", ["mallorn"])
    with pytest.raises(RecordsError, match="name"):
        class_records().join(opened.code, "first-trainee", name)
    with pytest.raises(RecordsError, match="no class with this code"):
        class_records().join("QQQQQQ", "first-trainee", "Ana")


def test_the_password_is_hashed_and_tries_are_counted(here: Path) -> None:
    with pytest.raises(BadPassword, match="10 to 200"):
        set_password("short")
    set_password(PASSWORD)
    stored = b"".join(path.read_bytes() for path in here.glob("visits.sqlite*"))
    assert PASSWORD.encode() not in stored
    assert b"$argon2id$" in stored
    door = Door()
    session, _ = door.enter(PASSWORD, "10.0.0.1")
    assert session is not None
    assert door.knows(session)
    door.leave(session)
    assert not door.knows(session)
    for _ in range(TRIES):
        assert door.enter("guess", "10.0.0.2") == (None, instructor_door.WRONG)
    assert door.enter(PASSWORD, "10.0.0.2") == (None, instructor_door.TOO_OFTEN)
    assert door.enter(PASSWORD, "10.0.0.3")[0] is not None
