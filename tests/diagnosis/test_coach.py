"""The ladder of hints: four rungs, from one's own readings, never from what is true."""

import itertools
import json
import os
import re
from dataclasses import replace

import pytest

from simulator.calls import actions, call_file, events
from simulator.calls.call_file import CallFile
from simulator.calls.decide import decide
from simulator.calls.sealed import Sealed, sealed
from simulator.calls.site import Site
from simulator.calls.visit import Visit, advanced
from simulator.diagnosis.causes import causes, codes
from simulator.diagnosis.coach import Hint, hint, hint_at_once
from simulator.diagnosis.coach_ladders import ladder_of
from simulator.diagnosis.coach_themes import THEMES, themes
from simulator.diagnosis.coach_worth import openness, worth_words
from simulator.diagnosis.coached import ACTS, RUNGS
from simulator.diagnosis.expected import expected_at
from simulator.diagnosis.healthy_today import expected_range
from simulator.diagnosis.interview import ASKED
from simulator.diagnosis.reasoner import next_action
from simulator.faults._catalogue import named
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.places import PLACES
from simulator.instruments.steps import STEPS

CALL = "mallorn"
NUMBER = re.compile(r"−?\d[\d,]*(?:\.\d+)?")


@pytest.fixture(scope="module")
def call() -> CallFile:
    return call_file.load(CALL)


def site(**faults: float) -> Site:
    """The same unit with something of one's own choice wrong."""
    key = sealed(CALL).opened()
    key = replace(key, faults=tuple(named(name, amount) for name, amount in faults.items()))
    return Site(call_file.load(CALL), Sealed(key), 12345)


def arrived() -> Visit:
    return advanced(Visit(), events.Opened(seq=0, minute=0.0, is_running=True))


def done(visit: Visit, at: Site, *acts: actions.Action) -> Visit:
    for act in acts:
        for event in decide(visit, act, site=at, causes=codes()):
            visit = advanced(visit, event)
    return visit


def asked(visit: Visit, call: CallFile) -> tuple[Visit, Hint]:
    """The visit with one more hint taken."""
    told = hint(visit, call)
    if told.is_new:
        taken = events.Hinted(
            seq=visit.next_seq,
            minute=visit.minute,
            rung=told.rung,
            about=told.about,
            said=told.said,
            said_si=told.said_si,
        )
        visit = advanced(visit, taken)
    return visit, told


def interviewed(at: Site) -> Visit:
    take = [actions.Measure(measurement=name, technique="careful") for name in ASKED]
    return done(arrived(), at, actions.Prepare(step="consent"), *take)


def at_the_air_handler(at: Site) -> Visit:
    return done(
        interviewed(at),
        at,
        actions.GoTo(place="air_handler"),
        *(actions.Prepare(step=step) for step in ("hazard_look_air_handler", "drill_test_holes")),
        *(
            actions.Measure(measurement=name, technique="careful")
            for name in ("look_filter", "static_supply", "return_dry_bulb", "supply_dry_bulb")
        ),
    )


def test_the_ladder_asks_points_tells_a_sound_value_and_works_the_step(call: CallFile) -> None:
    visit = interviewed(site(supply_leak=0.22))
    told = []
    for _ in range(RUNGS):
        visit, one = asked(visit, call)
        told.append(one)
    assert [one.rung for one in told] == [1, 2, 3, 4]
    code = told[0].about
    assert {one.about for one in told} == {code}
    item = MEASUREMENTS[code]
    asks, points, expects, works = (" ".join(one.said) for one in told)
    assert themes()[code].question in asks
    assert item.said not in asks
    place = call.place_names.get(item.place, PLACES[item.place].name)
    assert item.said in points
    assert place in points
    low, high = expected_range(code, True, visit, call, expected_at(call))[1:]
    assert low < high
    assert len(NUMBER.findall(expects)) == 3
    assert "expect about" in expects
    assert "First: " in works or "Then take it" in works
    # The last rung may be read again, at no price.
    again, fifth = asked(visit, call)
    assert not fifth.is_new
    assert fifth.said == told[-1].said
    assert again == visit


def test_a_reading_taken_ends_its_ladder(call: CallFile) -> None:
    at = site(supply_leak=0.22)
    visit, first = asked(at_the_air_handler(at), call)
    visit, second = asked(visit, call)
    assert (first.about, second.rung) == (second.about, 2)
    item = MEASUREMENTS[first.about]
    walk = [] if visit.place == item.place else [actions.GoTo(place=item.place)]
    needs = [actions.Prepare(step=need) for need in item.needs if need not in visit.prepared]
    take = actions.Measure(measurement=item.id, technique=item.techniques[0].id)
    visit, third = asked(done(visit, at, *walk, *needs, take), call)
    assert third.rung == 1
    assert third.about != first.about


def test_walking_about_does_not_change_what_the_coach_is_on(call: CallFile) -> None:
    at = site(supply_leak=0.22)
    visit, first = asked(at_the_air_handler(at), call)
    for place in ("return_grille", "registers"):
        visit = done(visit, at, actions.GoTo(place=place))
        assert hint(visit, call).about == first.about
        assert hint(visit, call).rung == 2


def test_before_anything_is_measured_come_people_the_complaint_and_safety(call: CallFile) -> None:
    at = site(supply_leak=0.22)
    visit = advanced(Visit(), events.Opened(seq=0, minute=0.0, is_running=False))
    order = []
    for act in (
        actions.Prepare(step="consent"),
        *(actions.Measure(measurement=name, technique="careful") for name in ASKED),
        actions.StartSystem(),
    ):
        told = hint_at_once(visit, call)
        assert told is not None
        order.append(told.about)
        visit = done(visit, at, act)
    assert order == ["consent", *ASKED, "start_system"]
    visit = done(visit, at, actions.GoTo(place="outdoor_unit"))
    told = hint_at_once(visit, call)
    assert told is not None
    assert told.about == "hazard_look_outdoor"


def test_the_same_readings_give_the_same_hints_whatever_is_true(call: CallFile) -> None:
    """Two houses with something else wrong; the trainee of both has the same sheet."""
    leaking, short = site(supply_leak=0.25), site(undercharge=0.3)
    visit = at_the_air_handler(leaking)
    other = at_the_air_handler(short)
    assert [e.reading.value for e in other.readings] != [e.reading.value for e in visit.readings]
    # What the other house would have shown is put away; what was read here is told there.
    told = {}
    for name, at in (("leaking", leaking), ("short", short)):
        now, said = visit, []
        for _ in range(RUNGS):
            now, one = asked(now, at.call)
            said.append(one)
        told[name] = json.dumps([[one.rung, one.about, one.said] for one in said])
    assert told["leaking"] == told["short"]
    # The readings do count: another sheet gets other hints somewhere on the ladder or the worth.
    assert hint(other, call) != hint(visit, call) or told["leaking"] != json.dumps(
        [[one.rung, one.about, one.said] for one in _ladder(other, call)]
    )


def _ladder(visit: Visit, call: CallFile) -> list[Hint]:
    said = []
    for _ in range(RUNGS):
        visit, one = asked(visit, call)
        said.append(one)
    return said


def test_a_sound_value_is_the_sound_units_and_not_this_ones(call: CallFile) -> None:
    """A quarter of the air lost: the registers' sum of the site lies far below what is told."""
    at = site(supply_leak=0.25)
    visit = at_the_air_handler(at)
    low, high = expected_range("register_sum", True, visit, call, expected_at(call))[1:]
    true = MEASUREMENTS["register_sum"].true_value(
        at.installation(), at.moment(visit, visit.minute).now
    )
    assert true < low
    sound = site()
    shown = MEASUREMENTS["register_sum"].true_value(
        sound.installation(), sound.moment(visit, visit.minute).now
    )
    assert low < shown < high


def test_no_hint_names_a_cause_or_a_likelihood(call: CallFile) -> None:
    visit = at_the_air_handler(site(supply_leak=0.25))
    said = " ".join(line for one in _ladder(visit, call) for line in one.said)
    for cause in causes():
        assert cause.name.lower() not in said.lower()
        assert cause.code not in said
    for word in ("odds", "likel", "probab", " bit", "%"):
        assert word not in said


@pytest.mark.parametrize("about", [*MEASUREMENTS, *STEPS, *ACTS])
def test_everything_that_can_be_coached_has_its_rungs(about: str) -> None:
    if about in MEASUREMENTS:
        theme = themes()[about]
        assert theme.question.endswith("?")
        assert sum(about in one.codes for one in THEMES) == 1
    else:
        ladder = ladder_of(about)
        assert ladder.asks.endswith("?")
        assert len({ladder.asks, ladder.points, ladder.expects, ladder.works}) == RUNGS


def test_worth_is_told_in_words_that_fall_with_it() -> None:
    told = [worth_words(bits, 5.0) for bits in (1.0, 0.5, 0.2, 0.01)]
    assert len(set(told)) == 4
    assert "in half" in told[0]
    assert "little" in told[-1]
    assert "settle" in worth_words(0.3, 0.4)
    for one, other in itertools.pairwise((5.0, 2.0, 1.0, 0.1)):
        assert openness(one) != openness(other)


# BENCHCALL_WHOLE=1 plays the library.
PLAYED = call_file.names() if os.environ.get("BENCHCALL_WHOLE") else [CALL]


@pytest.mark.parametrize("name", PLAYED)
def test_a_call_can_be_coached_to_its_end(name: str) -> None:
    """All four rungs after every few acts of one who reasons from readings."""
    call = call_file.load(name)
    at = Site(call, sealed(name), 5)
    visit = advanced(Visit(), events.Opened(seq=0, minute=0.0, is_running=call.is_running))
    said: list[str] = []
    for count in itertools.count():
        for _ in range(RUNGS if count % 8 == 0 else 0):
            visit, one = asked(visit, call)
            assert one.said
            assert all(line and line[-1] in ".?" for line in one.said), one.said
            said += one.said
        act = next_action(visit, call)
        if act is None:
            break
        visit = done(visit, at, act)
    heard = " ".join(said).lower()
    for cause in causes():
        assert cause.name.lower() not in heard, cause.name
        assert not re.search(rf"\b{cause.code}\b", heard), cause.code
    assert {event.rung for event in visit.hints} == {1, 2, 3, 4}
    assert {event.about for event in visit.hints} & set(MEASUREMENTS)
