"""In a language of brackets nothing that the bench answers is left in English.

No outside source: the aim is that a translation needs no code.
"""

from pathlib import Path
from typing import Any

import pytest

from simulator.serve.learning import lesson
from simulator.serve.learning.texts import lesson_file
from simulator.serve.stand_page import stand
from simulator.serve.web.speaking import speaking
from simulator.words.answers import meant, spoken
from tests.scoring.played import desk_for, good_capstone, hasty_capstone
from tests.words.artificial import artificial, english_in

LESSONS = ("01-normal-today", "02-arrive-safely", "06-airflow-three-ways")


def said(answer: dict[str, Any]) -> dict[str, Any]:
    """An answer in brackets."""
    return spoken(answer, artificial())


@pytest.mark.parametrize("play", [good_capstone, hasty_capstone])
def test_a_call_and_its_debrief(play: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    desk = desk_for("mallorn", tmp_path, monkeypatch)
    arrived = said(desk.act({"do": "look_around", "units": "us"}))
    assert english_in(arrived) == []
    play(desk)
    assert english_in(said(desk.act({"do": "look_around", "units": "si"}))) == []
    told = said(desk.debrief("us"))
    assert "debrief" in told
    assert english_in(told) == []


@pytest.mark.parametrize("name", LESSONS)
def test_a_lesson(name: str) -> None:
    for part in lesson_file(name)["parts"]:
        assert english_in(said({"blocks": lesson.blocks(name, part)})) == []


def test_a_question_is_answered_in_the_language_of_the_page() -> None:
    """What was chosen goes back to the bench as the English text that it knows."""
    block = next(b for b in lesson.blocks("01-normal-today", "quiz") if "choices" in b)
    right = "From today's outdoor air, today's room air and the airflow"
    assert right in block["choices"]
    handle = speaking(lesson.handler("01-normal-today", "quiz"), artificial())
    reply = handle({"do": "answer", "question": block["id"], "answer": f"⟦{right}⟧"})
    assert reply["right"]
    assert english_in(reply) == []


def test_the_test_stand() -> None:
    message = {
        "do": "set", "metering": "txv", "outdoor": "95", "return_db": "80", "return_wb": "67",
        "airflow": "100", "units": "us", "faults": [{"name": "loaded_filter", "severity": "8"}],
    }  # fmt: skip
    answer = stand.answer(message)
    assert "problem" not in answer, answer
    assert english_in(said(answer)) == []


def test_what_a_program_reads_stays() -> None:
    answer = {"state": "off", "id": "zone", "write_up": "Attic", "text": "Attic"}
    assert said(answer) == {**answer, "text": "⟦Attic⟧"}
    assert meant({"do": "go", "place": "⟦Attic⟧"}, artificial())["place"] == "⟦Attic⟧"
