"""A first hint leads on from what was asked and measured; five calls, from several states."""

import pytest

from simulator.calls import actions, call_file, events
from simulator.calls.decide import decide
from simulator.calls.sealed import sealed
from simulator.calls.site import Site
from simulator.calls.visit import Visit, advanced
from simulator.diagnosis.causes import causes, codes
from simulator.diagnosis.coach import hint
from simulator.diagnosis.coach_leads import KNOWN, QUESTIONS, leading
from simulator.diagnosis.coach_themes import THEMES, themes
from simulator.diagnosis.interview import ASKED
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.places import PLACES
from simulator.instruments.steps import STEPS
from simulator.instruments.tools import TOOLS

CALLS = ("mallorn", "achterberg", "sorrel", "quenneville", "brannock")
AIR = ("look_filter", "static_before_filter", "static_after_filter", "return_dry_bulb")


def taken(call: str, *names: str) -> tuple[Visit, Site]:
    """A visit with consent and these readings, each prepared and in its place."""
    site = Site(call_file.load(call), sealed(call), 5)
    visit = advanced(Visit(), events.Opened(seq=0, minute=0.0, is_running=site.call.is_running))
    visit = _done(visit, site, actions.Prepare(step="consent"))
    for name in names:
        item = MEASUREMENTS[name]
        hazards = [step.id for step in STEPS.values() if step.id.startswith("hazard")]
        for step in (*hazards, *item.needs):
            here = STEPS[step].place == item.place
            if step not in visit.prepared and (here or step in item.needs):
                visit = _at(visit, site, STEPS[step].place)
                visit = _done(visit, site, actions.Prepare(step=step))
        visit = _at(visit, site, item.place)
        way = item.techniques[0].id
        visit = _done(visit, site, actions.Measure(measurement=name, technique=way))
    return visit, site


def _at(visit: Visit, site: Site, place: str) -> Visit:
    return visit if visit.place == place else _done(visit, site, actions.GoTo(place=place))


def _done(visit: Visit, site: Site, act: actions.Action) -> Visit:
    for event in decide(visit, act, site=site, causes=codes()):
        visit = advanced(visit, event)
    return visit


@pytest.mark.parametrize("call", CALLS)
def test_after_two_questions_it_says_what_is_known_and_asks_on(call: str) -> None:
    visit, site = taken(call, "ask_when", "ask_changed")
    told = hint(visit, site.call)
    assert told.about not in ("ask_when", "ask_changed")
    said = " ".join(told.said)
    assert KNOWN["ask_when"] in said
    assert KNOWN["ask_changed"] in said
    assert QUESTIONS[told.about] in said
    assert QUESTIONS["ask_when"] not in said


@pytest.mark.parametrize("call", CALLS)
def test_it_names_what_the_sheet_tells_of_and_never_the_reading_it_is_about(call: str) -> None:
    found = set()
    for names in ((), ("ask_when",), ASKED, (*ASKED, *AIR)):
        visit, site = taken(call, *names)
        told = hint(visit, site.call)
        said = " ".join(told.said)
        found.add(said)
        if told.about in MEASUREMENTS:
            assert MEASUREMENTS[told.about].said not in said
            assert ("so far" in said or "by now" in said) is bool(names)
        assert not any(cause.name in said for cause in causes())
    assert len(found) == 4


def test_a_reading_of_the_same_kind_is_named_and_a_re_test_says_so() -> None:
    visit, site = taken("achterberg", *ASKED, *AIR)
    lead, question = leading("static_supply", visit)
    assert "static before the filter; static after the filter" in lead
    assert question == themes()["static_supply"].question
    visit = _done(visit, site, actions.StopSystem())
    visit = _done(visit, site, actions.Repair(repair="replace_filter"))
    lead, _ = leading("static_before_filter", visit)
    assert lead.startswith("You took it before the repair")
    assert leading("coil_airflow", visit)[0] == ""


def test_every_lead_names_neither_place_nor_tool() -> None:
    assert set(QUESTIONS) == set(KNOWN) == set(ASKED)
    said = [*QUESTIONS.values(), *KNOWN.values(), *(theme.about for theme in THEMES)]
    assert len(set(said)) == len(said)
    for text in said:
        for name in (*(p.name for p in PLACES.values()), *(t.name for t in TOOLS.values())):
            assert name.lower() not in text.lower()
    assert all(question.endswith("?") for question in QUESTIONS.values())
