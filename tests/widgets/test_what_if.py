"""What if: nothing is shown before a prediction, and every value is the plant's own.

How superheat and the drops move is common practice, no source.
"""

import re
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from simulator.serve import bench_readings
from simulator.serve.learning import lesson, progress, texts
from simulator.serve.stand.setting import Setting

LESSON, PART, ASKED = "air-before-refrigerant", "worked", "superheat"
STATES = ("healthy", "choked", "squeezed", "short")


@pytest.fixture
def block() -> dict[str, Any]:
    """The block as the browser gets it."""
    return next(b for b in lesson.blocks(LESSON, PART) if b["kind"] == "what_if")


def attempt(state: str, predicted: str = "Low charge") -> dict[str, Any]:
    """One press of a button."""
    said = {"do": "try", "question": ASKED, "state": state, "answer": predicted}
    return lesson.handler(LESSON, PART)(said)


def value(state: str, reading: int) -> float:
    """A printed value."""
    return float(attempt(state)["cells"][reading]["value"].replace(",", ""))


def test_the_page_gets_buttons_and_no_value(block: dict[str, Any]) -> None:
    assert [state["state"] for state in block["states"]] == list(STATES)
    assert set(block["choices"]) <= {state["name"] for state in block["states"]}
    assert not re.search(r"\d\.\d|\d{3}", str(block))
    assert not {"answer", "reason", "cells"} & set(block)


def test_a_prediction_comes_first() -> None:
    for predicted in ("", "Something else"):
        answer = attempt("choked", predicted)
        assert set(answer) == {"problem"}
        assert "Predict first" in answer["problem"]


@pytest.mark.parametrize("state", ["weak", "", "__class__"])
def test_a_state_that_is_not_offered_is_refused(state: str) -> None:
    assert set(attempt(state)) == {"problem"}


def test_a_plain_question_cannot_be_tried() -> None:
    said = {"do": "try", "question": "drop", "state": "healthy", "answer": "x"}
    assert set(lesson.handler(LESSON, "faded")(said)) == {"problem"}


@pytest.mark.parametrize("state", STATES)
def test_values_are_the_plants_own(state: str, block: dict[str, Any]) -> None:
    """Against the test stand set to the same faults."""
    raw = texts.lesson_file(LESSON)
    faults = raw["states"][state].get("faults", {})
    setting = Setting(metering=raw["states"][state]["metering"], faults=faults)
    table = bench_readings.as_table(bench_readings.solved(setting))["readings"]
    names = next(b for b in raw["parts"][PART]["blocks"] if b["kind"] == "what_if")["readings"]
    assert len(names) == len(block["rows"]) == len(attempt(state)["cells"])
    for index, name in enumerate(names):
        printed = attempt(state)["cells"][index]["value"]
        half = 0.5 * 10.0 ** -len(printed.partition(".")[2])  # of the last digit
        assert value(state, index) == pytest.approx(table[name]["value"], rel=0, abs=1.01 * half)


def test_a_move_is_told_from_healthy_and_not_by_colour_alone() -> None:
    assert not any(cell["move"] for cell in attempt("healthy")["cells"])
    filter_drop = attempt("choked")["cells"][1]
    assert filter_drop["move"] == f"{value('choked', 1) - value('healthy', 1):.2f} above"
    said = attempt("choked")["said"]
    assert said.startswith("Filter loaded: airflow ")
    assert f"filter drop {filter_drop['value']} in wc, {filter_drop['move']} healthy" in said


def test_one_gauge_cannot_part_what_superheat_parts() -> None:
    suction = sorted(value(state, 3) for state in STATES[1:])
    assert all(b - a < 2.0 for a, b in pairwise(suction))
    assert value("choked", 4) < value("healthy", 4) < value("short", 4)
    assert value("squeezed", 4) < value("healthy", 4)
    # A loaded filter takes the drop itself; a pinched duct leaves less air to make one.
    assert value("squeezed", 1) < value("healthy", 1) < value("choked", 1)


def test_the_prediction_is_judged() -> None:
    handle = lesson.handler(LESSON, PART)
    said = {"do": "answer", "question": ASKED}
    assert handle({**said, "answer": "Low charge"})["right"]
    wrong = handle({**said, "answer": "Filter loaded"})
    assert not wrong["right"]
    assert "psig" in wrong["reason"]


def test_a_prediction_stands_there_again_after_a_reload(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("BENCHCALL_DATA", str(tmp_path))

    def opened() -> dict[str, Any]:
        blocks = progress.keeping(LESSON, PART, "learner")({"do": "open"})["blocks"]
        return next(b for b in blocks if b["kind"] == "what_if")

    assert "said" not in opened()
    answer = {"do": "answer", "question": ASKED, "answer": opened()["choices"][0]}
    told = progress.keeping(LESSON, PART, "learner")(answer)
    assert opened()["said"] == {"given": answer["answer"], **told}
