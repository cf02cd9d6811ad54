"""Each trainee of a class may get a version of a call of their own."""

import csv
import io
import json
from pathlib import Path

import pytest

from simulator.calls import call_file, versions
from simulator.calls.sealed import sealed
from simulator.records.class_records import ClassRecord
from simulator.records.visit_records import RecordsError
from simulator.scoring import best_question
from simulator.serve.classes.dealing import as_dealt, version_for, worked
from simulator.serve.classes.files import class_records, class_visits, dealt_versions
from simulator.serve.home.paper_pages import record_of
from simulator.serve.instructor import class_board, class_sheets, door
from simulator.serve.instructor.answer_key import answer_key
from simulator.serve.instructor.class_debrief import class_question
from simulator.serve.instructor.class_debrief_pages import closed
from simulator.serve.instructor.door import set_password
from simulator.serve.paths import data_directory
from simulator.serve.visits import visits
from simulator.serve.visits.closed_visits import final_card, true_causes
from simulator.serve.visits.visits import CallDesk
from tests.scoring.played import do, good_capstone
from tests.serve.class_room import PASSWORD, send
from tests.serve.running import Client, running_bench

CALL, OTHER = "mallorn", "rooke"
TRAINEES = [f"trainee-{seat}" for seat in range(1, 13)]


@pytest.fixture
def one_class(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> ClassRecord:
    """A class of twelve; each gets a version of one of its two calls."""
    monkeypatch.setenv("BENCHCALL_DATA", str(tmp_path))
    visits.records.cache_clear()
    door.records.cache_clear()
    opened = class_records().open_class("A", [CALL, OTHER])
    for trainee in TRAINEES:
        class_records().join(opened.code, trainee, trainee.title())
    dealt_versions().choose(opened.code, CALL, is_own=True)
    return opened


def begun(call: str, trainee: str) -> tuple[str, CallDesk]:
    """A visit as the start page begins it."""
    token = visits.start_visit(call, trainee, version_for(call, trainee))
    class_visits().note(token, call, trainee)
    return token, visits.open_desk(token)


def test_everybody_gets_another_one_and_always_the_same(one_class: ClassRecord) -> None:
    numbers = [version_for(CALL, trainee) for trainee in TRAINEES]
    assert 0 not in numbers
    assert len(set(numbers)) == len(TRAINEES)
    class_records().join(one_class.code, "late", "Late")
    class_records().join(one_class.code, TRAINEES[3], "Renamed")
    assert [version_for(CALL, trainee) for trainee in TRAINEES] == numbers
    met = {as_dealt({"id": CALL}, trainee)["customer"] for trainee in TRAINEES}
    assert len(met) == len(TRAINEES)


def test_who_is_in_no_such_class_gets_the_call_itself(one_class: ClassRecord) -> None:
    assert version_for(CALL, "somebody-else") == 0
    assert version_for(OTHER, TRAINEES[0]) == 0
    listed = next(call for call in visits.list_calls() if call["id"] == OTHER)
    assert as_dealt(listed, TRAINEES[0]) == listed
    dealt_versions().choose(one_class.code, CALL, is_own=False)
    assert version_for(CALL, TRAINEES[0]) == 0
    with pytest.raises(RecordsError, match="does not work that call"):
        dealt_versions().choose(one_class.code, "tavener", is_own=True)


def test_a_visit_keeps_its_version_whatever_is_chosen_later(one_class: ClassRecord) -> None:
    token, desk = begun(CALL, TRAINEES[0])
    do(desk, "measure", test="ask_when", technique="careful")
    customer = desk.view("us")["work_order"]["customer"]
    assert customer != call_file.load(CALL).customer
    dealt_versions().choose(one_class.code, CALL, is_own=False)
    again = visits.open_desk(token)
    assert again.view("us")["work_order"]["customer"] == customer
    assert len(again.visit.readings) == 1


def test_what_is_found_graded_and_printed_is_the_version_s(one_class: ClassRecord) -> None:
    token, desk = begun(CALL, TRAINEES[0])
    good_capstone(desk)
    name = worked(visits.records().record(token))
    assert name == versions.named(CALL, version_for(CALL, TRAINEES[0]))
    row = next(row for row in class_board.board(one_class) if row.token == token)
    assert (row.call_id, row.version) == (CALL, name)
    assert row.points is None  # until the odds of the visit are worked out
    card = final_card(token)
    assert card is not None
    assert card.total > 90
    row = next(row for row in class_board.board(one_class) if row.token == token)
    assert row.points == card.total
    told = next(csv.DictReader(io.StringIO(class_sheets.gradebook(one_class))))
    assert told["version"] == name
    assert float(told["points of 100"]) == row.points
    assert set(true_causes(token)) == set(sealed(CALL).opened().causes)
    customer = call_file.load(name).customer
    record = record_of(token, TRAINEES[0])
    assert record is not None
    assert record["customer"] == customer
    assert desk.debrief("us")["debrief"]["work_order"]["customer"] == customer
    key = answer_key(name)
    assert key["order"]["customer"] == customer
    assert [cause["name"] for cause in key["key"]["causes"]] == [
        cause["name"] for cause in answer_key(CALL)["key"]["causes"]
    ]


def test_nothing_on_the_page_tells_of_versions(one_class: ClassRecord) -> None:
    """Neither its number nor its recipe; a work order is a work order."""
    token, desk = begun(CALL, TRAINEES[0])
    for place in ("customer", "outdoor_unit"):
        if desk.visit.place != place:
            do(desk, "go", place=place)
    shown = json.dumps(desk.view("us"))
    version = worked(visits.records().record(token))
    assert version not in shown
    assert CALL not in shown.lower()
    for word in ("version", "recipe", "variant"):
        assert word not in shown.lower()
    for fault in sealed(version).opened().faults:
        assert f"{fault.severity:g}" not in shown


def test_two_trainees_are_offered_their_own_by_the_server(one_class: ClassRecord) -> None:
    """By the pages: chosen on the instructor's, shown before and after the call is taken."""
    set_password(PASSWORD)
    with running_bench(Path(data_directory())) as bench:
        instructor = Client(bench.address)
        send(instructor, "instructor/door", password=PASSWORD)
        own = f"instructor/class/{one_class.code}"
        terms = {"do": "assign", "call": OTHER, "mode": "practice", "own": "yes"}
        assert "each their own version" in instructor.ask(f"{own}/terms").body
        assert send(instructor, f"{own}/terms", **terms).status == 303
        assert dealt_versions().dealt(one_class.code) == {CALL, OTHER}
        met = []
        for name in ("Ana", "Ben"):
            trainee = Client(bench.address)
            send(trainee, "join", code=one_class.code, name=name)
            token = trainee.take_call(OTHER).split("visit=")[1]
            customer = visits.open_desk(token).view("us")["work_order"]["customer"]
            assert customer in trainee.ask(f"start/{OTHER}").body
            met.append((customer, visits.records().record(token).number))
            assert trainee.ask(f"start/{OTHER}.1").status == 404
        assert len({customer for customer, _ in met}) == len({number for _, number in met}) == 2
        plain = Client(bench.address)
        assert call_file.load(OTHER).customer in plain.ask(f"start/{OTHER}").body
        version = versions.named(OTHER, 1)
        key = instructor.ask(f"instructor/key/{version}").body
        assert call_file.load(version).customer in key
        assert instructor.ask("instructor/key/nothing.1").status == 404
        assert plain.ask(f"instructor/key/{version}").status == 302
        send(instructor, f"{own}/terms", do="assign", call=OTHER, mode="practice")
        assert dealt_versions().dealt(one_class.code) == {CALL}


def test_no_two_calls_hide_the_same_faults_in_the_same_unit() -> None:
    """So no class meets the same truth twice within three calls, whatever their order."""
    hidden = []
    for name in call_file.names():
        call, key = call_file.load(name), sealed(name).opened()
        if key.faults:
            hidden.append((call.unit, call.metering, tuple(sorted(key.causes))))
    assert len(set(hidden)) == len(hidden)


def test_a_class_debrief_judges_each_visit_by_its_own_version(
    one_class: ClassRecord, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The odds of a visit are worked out for the house that it was in."""
    for trainee in TRAINEES[:2]:
        _, desk = begun(CALL, trainee)
        good_capstone(desk)
    seen = []
    monkeypatch.setattr(
        best_question, "gains", lambda visit, site, true: seen.append(site.call.customer) or []
    )
    _, done = closed(one_class, CALL)
    class_question(done, done[0][1])
    wanted = [versions.named(CALL, version_for(CALL, trainee)) for trainee in TRAINEES[:2]]
    assert seen == [call_file.load(name).customer for name in wanted]
