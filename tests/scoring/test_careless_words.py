"""Looks, smoke and questions done carelessly: what they show, and what they cost."""

from dataclasses import replace

import numpy as np
import pytest

from simulator.calls.call_file import load
from simulator.calls.events import Closed, Declared, Event, Measured, Opened
from simulator.calls.sealed import sealed
from simulator.calls.visit import Visit, fold
from simulator.diagnosis.coach_targets import plain_target
from simulator.diagnosis.expected import expected_at
from simulator.diagnosis.interview import factors
from simulator.diagnosis.likelihood import told_score
from simulator.instruments import sight
from simulator.instruments.measurement import Seen
from simulator.instruments.measurements import MEASUREMENTS
from simulator.plant import steady
from simulator.scoring.acts import interview
from simulator.scoring.reasoning import measuring
from tests.plant.stand import installed, weather
from tests.scoring.made import measured

KEY = sealed("mallorn").opened()
SMOKE = {"smoke_return": "return_leak", "smoke_supply": "supply_leak"}


def loosely(event: Measured, technique: str, words: str | None = None) -> Measured:
    """The same reading taken another way."""
    way = replace(event.reading, technique=technique)
    return replace(event, reading=replace(way, words=words) if words else way)


def visit(*events: Event) -> Visit:
    """A closed visit around some readings."""
    count = len(events) + 1
    stated = Declared(seq=count, minute=90.0, causes=("no_fault",), cited=())
    ends = (stated, Closed(seq=count + 1, minute=90.0))
    return fold([Opened(seq=0, minute=0.0, is_running=True), *events, *ends])


@pytest.mark.parametrize(("key", "leak"), SMOKE.items())
def test_a_draft_is_taken_for_a_leak_and_hides_one(key: str, leak: str) -> None:
    answers: dict[str, set[str]] = {}
    for name, built in (("tight", installed()), ("leaking", installed("txv", 1.0, **{leak: 0.15}))):
        point = steady.solve(built, weather())
        for way in ("careful", "draft"):
            answers[f"{name} {way}"] = {
                sight.told(
                    key, Seen(installation=built, point=point, technique=way, draw=float(draw)), {}
                )
                for draw in np.linspace(0.0, 1.0, 11)
            }
    # Carefully the two are told apart on every visit; in a draft one may show what the other does.
    assert len(answers["tight careful"]) == len(answers["leaking careful"]) == 1
    assert not answers["tight careful"] & answers["leaking careful"]
    assert answers["tight draft"] & answers["leaking draft"]
    assert answers["leaking careful"] < answers["leaking draft"]
    assert MEASUREMENTS[key].minutes_by("draft") < MEASUREMENTS[key].minutes


def test_smoke_in_a_draft_moves_belief_less() -> None:
    table = expected_at(load("mallorn"))
    shares = table.words["smoke_return", True].words
    strongest = max(shares, key=lambda words: float(np.ptp(shares[words])))
    event = loosely(measured(1, "smoke_return", 5.0), "careful", strongest)
    tight, loose = (told_score(one, table) for one in (event, loosely(event, "draft")))
    # What was certain is less so, and what was out of the question may be.
    assert loose.max() < tight.max() - 0.3
    assert (loose - tight)[tight < np.log(0.02)].max() > 1.0


def test_carelessness_with_smoke_costs_what_it_does_with_numbers() -> None:
    event = measured(1, "smoke_return", 5.0)
    good, bad = (measuring(visit(one), KEY) for one in (event, loosely(event, "draft")))
    again = measuring(visit(loosely(event, "draft"), replace(event, seq=2)), KEY)
    numbers = [measured(seq, "voltage", 5.0 * seq) for seq in range(2, 10)]
    rich = [measuring(visit(one, *numbers), KEY) for one in (event, loosely(event, "draft"))]
    assert rich[0].points - rich[1].points == pytest.approx(2.0)
    assert "carelessly" in " ".join(why.text for why in bad.because)
    for fine in (good, again):
        assert "carelessly" not in " ".join(why.text for why in fine.because)


QUESTIONS = ("ask_when", "ask_changed", "ask_touched", "ask_rooms")


@pytest.mark.parametrize("key", QUESTIONS)
def test_a_leading_question_hides_what_the_customer_knows(key: str) -> None:
    built = installed()
    point = steady.solve(built, weather())
    texts = {key: "The filter was changed in June."}
    seen = Seen(installation=built, point=point)
    assert sight.told(key, seen, texts) == texts[key]
    led = sight.told(key, replace(seen, technique="leading"), texts)
    assert led != texts[key]
    # It is a yes to anything, and moves no cause.
    assert factors((led,)) == {}


def test_a_led_answer_earns_nothing_until_it_is_asked_openly() -> None:
    event = measured(1, "ask_changed", 5.0)
    open_, led = (interview(visit(one), KEY).points for one in (event, loosely(event, "leading")))
    both = interview(visit(loosely(event, "leading"), replace(event, seq=2)), KEY).points
    assert open_ - led == pytest.approx(3.0)
    assert both == open_


def test_the_coach_asks_again_for_what_was_led() -> None:
    events = [Opened(seq=0, minute=0.0, is_running=True)]
    led = [
        loosely(measured(seq, key, 2.0 * seq), "leading", sight.LED)
        for seq, key in enumerate(QUESTIONS, start=1)
    ]
    there = replace(fold([*events, *led]), prepared=frozenset({"consent"}))
    found = plain_target(there)
    assert found is not None
    assert found.about == "ask_when"
