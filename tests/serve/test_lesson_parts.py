"""Lessons compute their numbers, judge answers with a tolerance and a reason, keep answers back."""

import pytest

from simulator.quantities.entered import BadEntry
from simulator.serve.learning import lesson, texts

NAME = "air-before-refrigerant"
PARTS = tuple(texts.lesson_file(NAME)["parts"])


@pytest.mark.parametrize("part", PARTS)
def test_every_hole_is_filled_and_no_answer_leaves(part: str) -> None:
    shown = lesson.blocks(NAME, part)
    text = str(shown)
    assert "{" not in text.replace("{'", "")
    for block in shown:
        assert not {"answer", "tolerance", "reason"} & set(block)


def test_answers_are_judged_with_a_reason() -> None:
    right = lesson.judged(NAME, "faded", "moved", "0")
    assert right["right"]
    assert "valve" in right["reason"]
    assert not lesson.judged(NAME, "faded", "moved", "9")["right"]
    share = texts.number(NAME, "weak/valve_healthy", "airflow")
    assert lesson.judged(NAME, "solo", "share", f"{share + 3:.0f} %")["right"]
    assert not lesson.judged(NAME, "solo", "share", f"{share + 9:.0f}")["right"]
    assert lesson.judged(NAME, "solo", "cause", "A weak blower")["right"]
    assert not lesson.judged(NAME, "solo", "cause", "A loaded filter")["right"]


@pytest.mark.parametrize(
    ("question", "answer", "said"),
    [
        ("moved", "", "answer first"),
        ("moved", "much", "must be a number"),
        ("drop", "maybe", "one of the answers"),
        ("none", "1", "no such question"),
    ],
)
def test_what_is_not_an_answer_is_said(question: str, answer: str, said: str) -> None:
    with pytest.raises(BadEntry, match=said):
        lesson.judged(NAME, "faded", question, answer)


def test_messages_are_answered() -> None:
    handle = lesson.handler(NAME, "solo")
    assert handle({"do": "open"})["blocks"]
    assert "problem" in handle({"do": "answer", "question": "x", "answer": "1"})


def test_the_circuit_is_drawn_with_the_readings_of_its_day() -> None:
    """What stands at each place is the plant's own, and the sentence says the same."""
    blocks = lesson.blocks("01-normal-today", "worked")
    drawn = next(block for block in blocks if block["kind"] == "circuit")
    table = texts.state_table("01-normal-today", "usual")
    places = {
        "liquid_pressure": ("liquid_pressure", 1),
        "suction_pressure": ("suction_pressure", 1),
        "superheat": ("superheat", 1),
        "subcooling": ("subcooling", 1),
        "condenses": ("condensing_temperature", 1),
        "boils": ("evaporating_temperature", 1),
        "supply_air": ("supply_plenum_temperature", 1),
    }
    for place, (reading, decimals) in places.items():
        value = f"{table[reading]['value']:.{decimals}f}\N{NO-BREAK SPACE}{table[reading]['unit']}"
        assert drawn["labels"][place].endswith(value), place
        assert value in drawn["told"]


def test_a_sound_unit_on_another_day_is_not_measured_by_healthy() -> None:
    """Nothing is wrong in lesson 1: its days stand beside the usual day."""
    said = lesson.tried("01-normal-today", "worked", "split", "less", "110 °F out")["said"]
    assert " above usual" in said
    assert "healthy" not in said
    asked = next(b for b in lesson.blocks("01-normal-today", "worked") if b["kind"] == "what_if")
    assert "The unit is sound in all" in asked["beside"]
