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
