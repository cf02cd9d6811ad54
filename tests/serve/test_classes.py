"""A class: opened behind a password, joined by code, watched, paused, exported."""

import csv
import io
import json
import re
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlencode

import pytest

from simulator.records.class_records import ClassRecords
from simulator.records.visit_records import RecordsError
from simulator.serve import class_sheets, classes, instructor_door, visits
from simulator.serve.class_files import class_records, class_visits, reflections
from simulator.serve.closed_visits import closed_card, final_card
from simulator.serve.instructor_door import TRIES, BadPassword, Door, set_password
from simulator.serve.visits import CallDesk
from tests.scoring.played import do, good_capstone, hasty_capstone
from tests.serve.running import Answer, Client, RunningBench, running_bench

PASSWORD = "four plain words here"
WRITTEN = "Please have the water heater"
FORGED = "benchcall-instructor=2|1:0|10:1700000000|20:benchcall-instructor|4:eWVz|" + 64 * "a"


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Records of their own."""
    monkeypatch.setenv("BENCHCALL_DATA", str(tmp_path))
    visits.records.cache_clear()
    instructor_door.records.cache_clear()
    return tmp_path


def begun(call: str, trainee: str) -> CallDesk:
    """A visit as the start page begins it."""
    token = visits.start_visit(call, trainee)
    class_visits().note(token, call, trainee)
    return visits.open_desk(token)


def test_who_joins_is_on_the_board_and_in_the_file(here: Path) -> None:
    del here
    opened = class_records().open_class("  Tuesday   evening ", ["mallorn"])
    assert opened.name == "Tuesday evening"
    class_records().join(opened.code.lower(), "first-trainee", "Ana")
    class_records().join(opened.code, "second-trainee", "=cmd()")
    good_capstone(begun("mallorn", "first-trainee"))
    rows = classes.board(opened)
    assert [(row.name, row.stage) for row in rows] == [("Ana", "closed"), ("=cmd()", "not begun")]
    assert rows[0].points is None  # the odds are not worked out for the board
    card = final_card(rows[0].token)
    assert card == final_card(rows[0].token) == closed_card(rows[0].token)
    rows = classes.board(opened)
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
    shown = str(classes.shown(classes.board(opened), with_names=False))
    for word in ("Ana", "leak", "points"):
        assert word not in shown
    assert "Seat 1" in shown
    assert "Ana" in str(classes.shown(classes.board(opened), with_names=True))


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
        (row,) = classes.board(opened)
        assert (row.name, row.call) == ("Ana", classes.UNREADABLE)
    (row,) = classes.board(opened)
    assert row.stage == "looking round"


def test_a_visit_outside_the_class_calls_does_not_count(here: Path) -> None:
    del here
    opened = class_records().open_class("A", ["mallorn"])
    class_records().join(opened.code, "first-trainee", "Ana")
    begun("rooke", "first-trainee")
    begun("mallorn", "somebody-else")
    assert class_visits().tokens(opened.code) == []


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


@pytest.fixture
def bench(here: Path) -> Iterator[RunningBench]:
    """A server whose password is set."""
    set_password(PASSWORD)
    with running_bench(here) as running:
        yield running


def send(client: Client, path: str, **fields: str) -> Answer:
    """A form."""
    client.ask("")
    body = urlencode({"_xsrf": client.cookie("_xsrf"), **fields}).encode()
    return client.ask(path, method="POST", body=body)


def test_a_trainee_gets_no_further_than_the_door(bench: RunningBench) -> None:
    trainee = Client(bench.address)
    opened = class_records().open_class("A", ["mallorn"])
    for path in (
        "instructor", f"instructor/class/{opened.code}", f"instructor/class/{opened.code}/rows",
        f"instructor/class/{opened.code}/results.csv", "instructor/key/mallorn",
        f"instructor/class/{opened.code}/items.csv", f"instructor/class/{opened.code}/terms",
        f"instructor/class/{opened.code}/marks", f"instructor/class/{opened.code}/marks/B-1001",
        f"instructor/class/{opened.code}/debrief/mallorn",
        f"instructor/class/{opened.code}/debrief/mallorn/question",
    ):  # fmt: skip
        answer = trainee.ask(path)
        assert answer.status == 302, path
        assert answer.headers["Location"].endswith("/instructor/door")
        assert "collar" not in answer.body
        for cookie in (FORGED, "benchcall-instructor=yes"):
            assert trainee.ask(path, headers={"Cookie": cookie}).status == 302, path
    assert send(trainee, "instructor", name="B", call="mallorn").status == 403
    assert send(trainee, f"instructor/class/{opened.code}", freeze="yes").status == 403
    own = f"instructor/class/{opened.code}"
    assert send(trainee, f"{own}/terms", do="assign", call="mallorn", mode="test").status == 403
    assert send(trainee, f"{own}/terms", do="release", call="mallorn").status == 403
    assert send(trainee, f"{own}/marks/B-1001", points="100", reason="because I can").status == 403
    assert send(trainee, "instructor/door", password="a guess").status == 403
    # A cookie of one's own making is not one that this server signed.
    forged = trainee.ask("instructor", headers={"Cookie": FORGED})
    assert forged.status == 302
    assert not class_records().by_code(opened.code).is_frozen


def test_an_instructor_opens_watches_and_exports(bench: RunningBench) -> None:
    instructor, trainee = Client(bench.address), Client(bench.address)
    assert send(instructor, "instructor/door", password=PASSWORD).status == 303
    assert "Open a class" in instructor.ask("instructor").body
    made = send(instructor, "instructor", name="<i>A</i>", call="mallorn")
    assert made.status == 303
    board = str(made.headers["Location"]).lstrip("/")
    page = instructor.ask(board).body
    assert "&lt;i&gt;A&lt;/i&gt;" in page
    code = re.search(r'class="code">(\w{6})<', page)
    assert code
    assert send(trainee, "join", code=code[1], name="<b>Ana</b>").status == 303
    assert "Your class" in trainee.ask("").body
    trainee.take_call("mallorn")
    rows = instructor.ask(f"{board}/rows?names=yes").body
    assert '"<b>Ana</b>"' in rows
    assert "looking round" in rows
    results = instructor.ask(f"{board}/results.csv")
    assert "attachment" in results.headers["Content-Disposition"]
    assert "<b>Ana</b>" in results.body
    assert send(instructor, "instructor/leave").status == 303
    assert instructor.ask(board).status == 302


def test_a_test_is_set_released_and_marked(bench: RunningBench) -> None:
    instructor, trainee = Client(bench.address), Client(bench.address)
    send(instructor, "instructor/door", password=PASSWORD)
    made = send(instructor, "instructor", name="A", call="mallorn")
    own = str(made.headers["Location"]).lstrip("/")
    send(trainee, "join", code=own[-6:], name="<b>Ana</b>")
    assert send(instructor, f"{own}/terms", do="assign", call="mallorn", mode="exam").status == 400
    # Without the token of the form nothing is changed, signed in or not.
    bare = instructor.ask(f"{own}/terms", method="POST", body=b"do=release&call=mallorn")
    assert bare.status == 403
    terms = {"do": "assign", "call": "mallorn", "mode": "test", "minutes": "500"}
    assert send(instructor, f"{own}/terms", **terms).status == 303
    assert "scores not released" in instructor.ask(f"{own}/terms").body
    more = {"do": "extend", "call": "mallorn", "minutes": "15", "seat": "1"}
    assert send(instructor, f"{own}/terms", **more).status == 303
    assert send(instructor, f"{own}/terms", **{**more, "seat": "9"}).status == 400
    token = trainee.take_call("mallorn").split("visit=")[1]
    assert trainee.take_call("mallorn").split("visit=")[1] == token
    outside = Client(bench.address)
    assert send(outside, "start/mallorn").status == 403
    good_capstone(visits.open_desk(token))
    assert "points" not in trainee.ask(f"record?visit={token}").body
    debrief = instructor.ask(f"{own}/debrief/mallorn").body
    assert "collar" in debrief
    assert "Ana" not in debrief
    question = json.loads(instructor.ask(f"{own}/debrief/mallorn/question").body)
    assert question["name"]
    assert "asked by 1 of 1" in question["said"]
    marks = instructor.ask(f"{own}/marks").body
    number = re.search(r"marks/(B-\d+)", marks)
    assert number
    assert "&lt;b&gt;Ana&lt;/b&gt;" in marks
    one = f"{own}/marks/{number[1]}"
    assert send(instructor, one, points="55", reason="short").status == 400
    assert send(instructor, one, points="55.5", reason="<i>the power went out</i>").status == 303
    assert send(instructor, f"{own}/terms", do="release", call="mallorn").status == 303
    record = trainee.ask(f"record?visit={token}").body
    assert "<strong>55.5</strong> of 100" in record
    assert "&lt;i&gt;the power went out" in record
    assert "By the rubric" in record
    assert "provisional" in instructor.ask(f"{own}/items.csv").body
    assert instructor.ask(f"{own}/marks/B-9").status == 404
    assert instructor.ask(f"{own}/debrief/rooke").status == 404
    assert send(instructor, f"{own}/terms", do="add", call="rooke").status == 303
    assert send(instructor, f"{own}/terms", do="add", call="no_such_call").status == 400
    assert send(instructor, f"{own}/terms", do="withdraw", call="mallorn").status == 303
    assert send(instructor, f"{own}/terms", do="withdraw", call="rooke").status == 400
    assert 'value="mallorn">' in instructor.ask(f"{own}/terms").body  # to be assigned again
    assert instructor.ask(f"{own}/debrief/mallorn").status == 200
    assert "start/mallorn" in trainee.ask("").body  # as practice of one's own


def test_a_visit_and_its_words_are_read_by_the_instructor_alone(bench: RunningBench) -> None:
    instructor, trainee = Client(bench.address), Client(bench.address)
    send(instructor, "instructor/door", password=PASSWORD)
    made = send(instructor, "instructor", name="Words", call="mallorn")
    own = str(made.headers["Location"]).lstrip("/")
    send(trainee, "join", code=own[-6:], name="Ana")
    token = trainee.take_call("mallorn").split("visit=")[1]
    number = visits.records().record(token).number
    one = f"{own}/marks/{number}"
    assert number not in instructor.ask(f"{own}/rows").body
    assert number in instructor.ask(f"{own}/rows?names=yes").body
    assert "nothing is graded before" in instructor.ask(one).body
    assert send(instructor, one, points="5", reason="much too early").status == 404
    good_capstone(visits.open_desk(token))
    reflections().add(token, "Why so warm?", "The <b>return</b> was open.")
    for words in ("Why so warm?", "The &lt;b&gt;return&lt;/b&gt; was open.", WRITTEN, "Arrived"):
        assert words in instructor.ask(one).body
        assert words not in trainee.ask(one).body


def test_a_test_says_so_before_it_is_taken_and_when_it_is_done(bench: RunningBench) -> None:
    instructor, trainee = Client(bench.address), Client(bench.address)
    send(instructor, "instructor/door", password=PASSWORD)
    made = send(instructor, "instructor", name="Told", call="mallorn")
    own = str(made.headers["Location"]).lstrip("/")
    send(trainee, "join", code=own[-6:], name="Ana")
    assert "A test" not in trainee.ask("").body
    send(instructor, f"{own}/terms", do="assign", call="mallorn", mode="test", minutes="90")
    told = "A test: one visit, without the coach. 90 minutes are allowed on site."
    assert told in trainee.ask("").body
    token = trainee.take_call("mallorn").split("visit=")[1]
    assert "Closed: debrief" not in trainee.ask("").body
    hasty_capstone(visits.open_desk(token))
    assert "Closed: debrief" in trainee.ask("").body


def test_the_key_is_on_paper_for_the_instructor(bench: RunningBench) -> None:
    instructor = Client(bench.address)
    send(instructor, "instructor/door", password=PASSWORD)
    page = instructor.ask("instructor/key/mallorn").body
    for word in ("collar", "Supply duct leaking", "Refit and seal", "Cooling that reaches"):
        assert word in page
    assert instructor.ask("instructor/key/nothing").status == 404


def test_a_record_is_its_owners_and_of_closed_visits_only(bench: RunningBench) -> None:
    owner, other = Client(bench.address), Client(bench.address)
    where = owner.take_call("mallorn")
    token = where.split("visit=")[1]
    assert owner.ask(f"record?visit={token}").status == 404
    good_capstone(visits.open_desk(token))
    shown = owner.ask(f"record?visit={token}").body
    assert "of 100 points" in shown
    assert re.search(r"Fingerprint of the record (\w{4} ){3}\w{4}", shown)
    assert other.ask(f"record?visit={token}").status == 404
    assert owner.ask("record").status == 404


def test_the_blank_sheet_has_every_reading_and_formula(bench: RunningBench) -> None:
    page = Client(bench.address).ask("worksheet").body
    for word in ("Suction pressure", "Flow of all registers", "Subcooling", "Target superheat"):
        assert word in page


def test_a_form_that_was_refused_keeps_what_was_typed(bench: RunningBench) -> None:
    instructor, trainee = Client(bench.address), Client(bench.address)
    send(instructor, "instructor/door", password=PASSWORD)
    refused = send(instructor, "instructor", name='Tuesday "evening"')
    assert refused.status == 400
    assert 'value="Tuesday &#34;evening&#34;"' in refused.body
    refused = send(instructor, "instructor", name="", call="mallorn")
    assert 'value="mallorn" checked' in refused.body
    refused = send(trainee, "join", code="QQQQQQ", name="<Ana>")
    assert refused.status == 400
    assert 'value="QQQQQQ"' in refused.body
    assert 'value="&lt;Ana&gt;"' in refused.body
