"""An instructor's pages as a server gives them, and to nobody else."""

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from simulator.serve.classes.files import class_records, reflections, visit_languages
from simulator.serve.instructor import door
from simulator.serve.instructor.door import set_password
from simulator.serve.visits import visits
from tests.scoring.played import good_capstone, hasty_capstone
from tests.serve.class_room import PASSWORD, send
from tests.serve.running import Client, RunningBench, running_bench

WRITTEN = "Please have the water heater"
FORGED = "benchcall-instructor=2|1:0|10:1700000000|20:benchcall-instructor|4:eWVz|" + 64 * "a"


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Records of their own."""
    monkeypatch.setenv("BENCHCALL_DATA", str(tmp_path))
    visits.records.cache_clear()
    door.records.cache_clear()
    return tmp_path


@pytest.fixture
def bench(here: Path) -> Iterator[RunningBench]:
    """A server whose password is set."""
    set_password(PASSWORD)
    with running_bench(here) as running:
        yield running


def test_a_trainee_gets_no_further_than_the_door(bench: RunningBench) -> None:
    trainee = Client(bench.address)
    opened = class_records().open_class("A", ["mallorn"])
    for path in (
        "instructor", f"instructor/class/{opened.code}", f"instructor/class/{opened.code}/rows",
        f"instructor/class/{opened.code}/results.csv", "instructor/key/mallorn",
        f"instructor/class/{opened.code}/items.csv", f"instructor/class/{opened.code}/form.csv",
        f"instructor/class/{opened.code}/terms",
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


def test_in_which_language_a_visit_was_begun_is_noted(bench: RunningBench) -> None:
    for language in ("en", "es"):
        trainee = Client(bench.address)
        trainee.ask("")
        form = f"_xsrf={trainee.cookie('_xsrf')}".encode()
        spoken = {"Accept-Language": f"{language}-US"}
        taken = trainee.ask("start/mallorn", method="POST", body=form, headers=spoken)
        token = str(taken.headers["Location"]).split("visit=")[1]
        assert visit_languages().of([token, "nobody"]) == {token: language}


def test_scores_are_not_released_over_somebody_who_still_works(bench: RunningBench) -> None:
    instructor, trainee = Client(bench.address), Client(bench.address)
    send(instructor, "instructor/door", password=PASSWORD)
    made = send(instructor, "instructor", name="Still", call="mallorn")
    own = str(made.headers["Location"]).lstrip("/")
    send(trainee, "join", code=own[-6:], name="Cay")
    send(instructor, f"{own}/terms", do="assign", call="mallorn", mode="test", minutes="500")
    trainee.take_call("mallorn")
    asked = send(instructor, f"{own}/terms", do="release", call="mallorn")
    assert asked.status == 200
    assert "1 visit of this test is still under way." in asked.body
    assert "scores not released" in instructor.ask(f"{own}/terms").body
    sure = send(instructor, f"{own}/terms", do="release", call="mallorn", sure="yes")
    assert sure.status == 303
    assert "scores released" in instructor.ask(f"{own}/terms").body


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
    assert not re.search(r"<details[^>]*\bopen\b", debrief)  # it is opened, not come upon
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
    assert "Cronbach" in instructor.ask(f"{own}/form.csv").body
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
    assert "closed after" not in trainee.ask("").body
    hasty_capstone(visits.open_desk(token))
    home = trainee.ask("").body
    assert "closed after" in home
    assert f"debrief.ipynb?visit={token}" in home
    assert "Once more" not in home


def test_the_key_is_on_paper_for_the_instructor(bench: RunningBench) -> None:
    instructor = Client(bench.address)
    send(instructor, "instructor/door", password=PASSWORD)
    page = instructor.ask("instructor/key/mallorn").body
    for word in ("collar", "Supply duct leaking", "Refit and seal", "Cooling that reaches"):
        assert word in page
    assert "Size 22 %: share of the fan flow lost" in " ".join(page.split())
    assert "Size 4.8 kW: strip power on" in " ".join(
        instructor.ask("instructor/key/rooke").body.split()
    )
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
