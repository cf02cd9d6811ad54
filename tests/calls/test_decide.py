"""Messages by the thousand: refused in one sentence or done, never both and never a crash."""

import json
import re
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from simulator.calls import actions, call_file, event_storage, events
from simulator.calls.decide import Refused, decide
from simulator.calls.sealed import sealed
from simulator.calls.site import Site
from simulator.calls.visit import Visit, advanced, fold
from simulator.diagnosis.causes import codes
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.places import PLACES
from simulator.instruments.reading import Reading
from simulator.instruments.steps import STEPS
from simulator.quantities.entered import BadEntry
from simulator.repairs import _catalogue as repairs
from simulator.serve.visits import wire

SENTENCE = re.compile(r"[A-Za-z][^\n]*\.")


@pytest.fixture(scope="module")
def site() -> Iterator[Site]:
    """The capstone's site with tools that show the same at once."""
    found = Site(call_file.load("mallorn"), sealed("mallorn"), 5)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Site, "reading", _shown)
        yield found


def _shown(site: Site, visit: Visit, measurement: str, technique: str, minute: float) -> Reading:
    return Reading(measurement=measurement, technique=technique, kind="temperature", value=290.0)


def arrived(*, is_running: bool = True) -> Visit:
    """A visit at its beginning."""
    return fold([events.Opened(seq=0, minute=0.0, is_running=is_running)])


def asked(visit: Visit, message: dict[str, Any], site: Site) -> Visit:
    """The visit after a message, which may be refused by either door."""
    added = decide(visit, wire.action(message, "us"), site=site, causes=codes())
    for event in added:
        visit = advanced(visit, event)
    return visit


def refused(visit: Visit, message: dict[str, Any], site: Site) -> str:
    """The one sentence that says why not."""
    before = (repr(visit), json.dumps(message))
    with pytest.raises((Refused, BadEntry)) as problem:
        asked(visit, message, site)
    assert (repr(visit), json.dumps(message)) == before
    said = str(problem.value)
    assert SENTENCE.fullmatch(said)
    assert len(said) < 240
    return said


def test_tests_need_their_place_and_every_step_of_theirs(site: Site) -> None:
    for item in MEASUREMENTS.values():
        message = {"do": "measure", "test": item.id, "technique": item.techniques[0].id}
        elsewhere = next(place for place in PLACES if place != item.place)
        away = advanced(arrived(), events.Moved(seq=1, minute=2.0, place=elsewhere))
        assert "done elsewhere" in refused(away, message, site)
        there = advanced(away, events.Moved(seq=2, minute=4.0, place=item.place))
        for seq, need in enumerate(item.needs, start=3):
            assert STEPS[need].name in refused(there, message, site)
            there = advanced(there, events.Prepared(seq=seq, minute=9.0, step=need))
        assert asked(there, message, site).readings[-1].reading.measurement == item.id


def test_preparations_need_their_place_and_are_done_once(site: Site) -> None:
    for step in STEPS.values():
        message = {"do": "prepare", "step": step.id}
        elsewhere = next(place for place in PLACES if place != step.place)
        away = advanced(arrived(), events.Moved(seq=1, minute=2.0, place=elsewhere))
        assert "done elsewhere" in refused(away, message, site)
        there = advanced(away, events.Moved(seq=2, minute=4.0, place=step.place))
        assert "done already" in refused(asked(there, message, site), message, site)


def test_repairs_need_the_power_right_and_amounts_in_range(site: Site) -> None:
    for code, kind in repairs.discover().items():
        message = {"do": "repair", "repair": code}
        if kind.amount_name is not None:
            for amount in (None, "", " ", "some", "nan", "inf", "-1", "1e9", "9" * 400, [], {}):
                refused(arrived(is_running=True), {**message, "amount": amount}, site)
            message["amount"] = "8"
        right = code == "add_refrigerant"
        if code != "recover_refrigerant":
            wrong = arrived(is_running=not right)
            assert "system first" in refused(wrong, message, site)
        done = asked(arrived(is_running=right), message, site).repairs[-1]
        assert (done.amount is None) == (kind.amount_name is None)


def test_an_amount_where_none_is_due_or_out_of_reach(site: Site) -> None:
    off = arrived(is_running=False)
    for action, said in (
        (actions.Repair(repair="seal_supply", amount=1.0), "takes no amount"),
        (actions.Repair(repair="weigh_in_charge" * 9), "no repair called"),
        (actions.Repair(repair="recover_refrigerant"), "Say how much"),
        (actions.Repair(repair="recover_refrigerant", amount=900.0), "outside"),
        (actions.Repair(repair="recover_refrigerant", amount=float("nan")), "outside"),
        (actions.Wait(minutes=float("nan")), "wait must be"),
        (actions.Wait(minutes=0.0), "wait must be"),
        (actions.Wait(minutes=999.0), "wait must be"),
    ):
        with pytest.raises(Refused, match=said) as problem:
            decide(off, action, site=site, causes=codes())
        assert SENTENCE.fullmatch(str(problem.value))


@pytest.mark.parametrize("minutes", [None, "", "soon", "0", "0.4", "121", "999", "-5", "nan", "inf",
                                     "1_0", "1 0", True, [], {}, "9" * 400])  # fmt: skip
def test_minutes_that_cannot_be_waited(minutes: Any, site: Site) -> None:
    refused(arrived(), {"do": "wait", "minutes": minutes}, site)


@pytest.mark.parametrize("text", [None, "", " \n\t ", [], {}, True, "x" * 4001])
def test_write_ups_that_are_none(text: Any, site: Site) -> None:
    refused(arrived(), {"do": "write_up", "text": text}, site)


def test_half_a_character_can_be_stored(site: Site) -> None:
    visit = asked(arrived(), {"do": "write_up", "text": "half \ud800"}, site)
    assert (visit.write_up or "").encode("utf-8") == b"half ?"


@pytest.mark.parametrize("cited", [[0], [1], [2], [-1], ["3"], [3.0], [True], [None], "3", {}, 3])
def test_only_readings_are_cited(cited: Any, site: Site) -> None:
    visit = asked(arrived(), {"do": "go", "place": "outdoor_unit"}, site)
    visit = asked(visit, {"do": "go", "place": "customer"}, site)
    visit = asked(visit, {"do": "measure", "test": "ask_when", "technique": "careful"}, site)
    refused(visit, {"do": "declare", "causes": ["undercharge"], "cited": cited}, site)
    kept = asked(visit, {"do": "declare", "causes": ["undercharge"] * 2, "cited": [3, 3]}, site)
    assert kept.finding is not None
    assert (kept.finding.causes, kept.finding.cited) == (("undercharge",), (3,))


@pytest.mark.parametrize(
    "sizes", [["slight"], ["slight", "huge"], ["slight", "slight", ""], "slight", [None, 3]]
)
def test_sizes_are_said_of_all_causes_and_by_their_names(sizes: Any, site: Site) -> None:
    message = {"do": "declare", "causes": ["undercharge", "loaded_filter"], "sizes": sizes}
    refused(arrived(), message, site)


def test_a_size_stays_with_its_cause_and_what_has_no_degrees_has_none(site: Site) -> None:
    causes = ["undercharge", "blocked_drain", "undercharge", "loaded_filter"]
    sizes = ["slight", "severe", "slight", ""]
    message = {"do": "declare", "causes": causes, "sizes": sizes}
    finding = asked(arrived(), message, site).finding
    assert finding is not None
    assert finding.sizes == ("slight", "", "")
    assert [finding.size_of(c) for c in ("undercharge", "no_fault")] == ["slight", ""]


def test_after_closing_every_message_gets_the_same_sentence(site: Site) -> None:
    assert "finding" in refused(arrived(), {"do": "close"}, site)
    visit = asked(arrived(), {"do": "declare", "causes": ["no_fault"]}, site)
    closed = asked(visit, {"do": "close"}, site)
    for message in (
        {"do": "close"}, {"do": "go", "place": "zone"}, {"do": "stop"}, {"do": "wait",
        "minutes": "5"}, {"do": "mark", "cause": "undercharge", "as": "open"},
        {"do": "write_up", "text": "late"}, {"do": "declare", "causes": ["undercharge"]},
        {"do": "repair", "repair": "seal_supply"}, {"do": "prepare", "step": "consent"},
    ):  # fmt: skip
        assert "closed" in refused(closed, message, site)


JUNK = st.none() | st.booleans() | st.integers(-3, 200) | st.floats() | st.text(max_size=5) | (
    st.lists(st.integers(0, 9) | st.sampled_from(sorted(codes())), max_size=3)
)  # fmt: skip
WORDS: dict[str, list[str]] = {
    "do": ["go", "prepare", "measure", "start", "stop", "wait", "mark", "declare", "repair",
           "write_up", "close"],
    "place": list(PLACES), "step": list(STEPS), "test": list(MEASUREMENTS),
    "technique": ["careful"], "minutes": ["1", "5", "90"], "cause": sorted(codes()),
    "as": list(actions.MARKS), "repair": list(repairs.discover()), "amount": ["4", "0.5"],
    "text": ["Done."],
}  # fmt: skip
LISTS = {
    "causes": st.lists(st.sampled_from(sorted(codes())), min_size=1, max_size=2),
    "cited": st.lists(st.integers(0, 12), max_size=2),
}
SENSIBLE = st.fixed_dictionaries({**{k: st.sampled_from(v) for k, v in WORDS.items()}, **LISTS})
ODD = st.dictionaries(st.sampled_from([*WORDS, *LISTS]), JUNK, max_size=2)
MESSAGES = st.builds(lambda most, some: {**most, **some}, SENSIBLE, ODD)


@settings(
    max_examples=40,
    deadline=None,
    derandomize=True,
    database=None,
    suppress_health_check=list(HealthCheck),
)
@given(messages=st.lists(MESSAGES, max_size=25), is_running=st.booleans())
def test_no_row_of_messages_breaks_a_visit(
    messages: list[dict[str, Any]], is_running: bool, site: Site
) -> None:
    visit = arrived(is_running=is_running)
    for message in messages:
        before, said = visit, "Done."
        try:
            visit = asked(visit, message, site)
        except (Refused, BadEntry) as problem:
            said = str(problem)
        assert SENTENCE.fullmatch(said)
        assert not before.is_closed or visit is before
    assert [event.seq for event in visit.events] == list(range(visit.next_seq))
    minutes = [event.minute for event in visit.events]
    assert minutes == sorted(minutes)
    assert visit.minute == minutes[-1]
    assert fold(visit.events) == visit
    assert [back_from_a_file(event) for event in visit.events] == list(visit.events)


def back_from_a_file(event: events.Event) -> events.Event:
    """An event written and read."""
    text = json.dumps(event_storage.payload(event), allow_nan=False)
    return event_storage.restored(
        event.seq, event_storage.kind(event), event.minute, json.loads(text)
    )
