"""Every lesson: numbers filled in, answers kept back, judged fairly, and kept once given.

What is asked is common practice, no source; figures are the plant's or worked out beside it.
"""

from pathlib import Path
from typing import Any

import pytest

from simulator.calls import call_file
from simulator.serve.learning import lesson, progress, texts
from simulator.serve.learning.sums import BadSum, worked
from simulator.serve.paths import lessons_directory
from simulator.serve.web.notebooks import pages

NOTEBOOKS = [page for page in pages(lessons_directory()) if page.kind == "lesson"]
LESSONS = [page.notebook.removesuffix(".ipynb") for page in NOTEBOOKS]
EVERY = pytest.mark.parametrize("name", LESSONS)
NUMBERED = [name for name in LESSONS if name[0].isdigit()]


def asked(name: str) -> list[tuple[str, dict[str, Any]]]:
    """All questions with their part."""
    parts = texts.lesson_file(name)["parts"]
    return [
        (part, block)
        for part in parts
        for block in parts[part]["blocks"]
        if block["kind"] in progress.ASKING
    ]


def right_answer(name: str, block: dict[str, Any]) -> str:
    """What is judged right."""
    if block["kind"] == "number":
        return f"{lesson._right(name, block):.6f}"
    return "\n".join(block["answer"]) if block["kind"] == "ticks" else str(block["answer"])


def wrong_answers(name: str, block: dict[str, Any]) -> list[str]:
    """What must be judged wrong."""
    if block["kind"] == "number":
        return [f"{lesson._right(name, block) + 2.1 * block['tolerance']:.6f}"]
    if block["kind"] == "ticks":
        return ["\n".join(block["answer"][1:]), "\n".join(block["choices"])]
    return [choice for choice in block["choices"] if choice != block["answer"]]


def test_there_are_six_lessons_in_order_and_each_has_its_page() -> None:
    assert [name[:2] for name in NUMBERED] == ["01", "02", "03", "04", "05", "06"]


@EVERY
def test_every_hole_is_filled_and_no_answer_leaves(name: str) -> None:
    for part in texts.lesson_file(name)["parts"]:
        for block in lesson.blocks(name, part):
            assert "{" not in str(block.get("text", ""))
            assert not {"answer", "tolerance", "reason", "sum"} & set(block)


@EVERY
def test_right_is_judged_right_and_wrong_wrong_with_a_reason(name: str) -> None:
    ids = [(part, block["id"]) for part, block in asked(name)]
    assert len(set(ids)) == len(ids)
    for part, block in asked(name):
        found = lesson.judged(name, part, block["id"], right_answer(name, block))
        assert found["right"], block["id"]
        assert "{" not in found["reason"]
        for wrong in wrong_answers(name, block):
            assert not lesson.judged(name, part, block["id"], wrong)["right"], (block["id"], wrong)


@pytest.mark.parametrize("name", NUMBERED)
def test_a_lesson_goes_from_recall_to_a_call(name: str) -> None:
    parts = texts.lesson_file(name)["parts"]
    assert list(parts) == ["quiz", "worked", "faded", "solo"]
    last = parts["solo"]["blocks"][-1]
    assert last["kind"] == "link"
    assert last["href"].rsplit("/", 1)[1] in call_file.names()
    for part in ("quiz", "faded", "solo"):
        assert any(block["kind"] in progress.ASKING for block in parts[part]["blocks"])


def test_a_target_superheat_is_that_of_the_published_rule() -> None:
    """(3 x wet bulb - 80 - outdoor) / 2, California Title 24 RA3.2 rule of thumb of the trade."""
    assert texts.total("01-normal-today", "(3 * wet_bulb - 80 - outdoor) / 2") == 12.0


@pytest.fixture
def learner(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    """Somebody with records of their own."""
    monkeypatch.setenv("BENCHCALL_DATA", str(tmp_path))
    return "learner-of-the-tests"


def test_what_was_answered_stands_there_again(learner: str) -> None:
    name, part, block = "01-normal-today", "quiz", "expected"
    handle = progress.keeping(name, part, learner)
    wrong = "From the nameplate alone"
    assert not handle({"do": "answer", "question": block, "answer": wrong})["right"]
    assert progress.progress(learner) == {name: 0}
    again = progress.keeping(name, part, learner)({"do": "open"})["blocks"]
    said = next(one["said"] for one in again if one.get("id") == block)
    assert said["given"] == wrong
    assert not said["right"]
    right = "From today's outdoor air, today's room air and the airflow"
    handle({"do": "answer", "question": block, "answer": right})
    assert progress.progress(learner) == {name: 1}
    assert progress.questions(name) == len(asked(name))
    assert "said" not in str(progress.keeping(name, part, "somebody-else")({"do": "open"}))


def test_ticks_travel_as_a_list_and_are_kept(learner: str) -> None:
    handle = progress.keeping("02-arrive-safely", "faded", learner)
    block = next(block for _, block in asked("02-arrive-safely") if block["kind"] == "ticks")
    found = handle({"do": "answer", "question": "hazards", "answer": block["answer"]})
    assert found["right"]
    found = handle({"do": "answer", "question": "hazards", "answer": [*block["answer"], "A ghost"]})
    assert "problem" in found
    found = handle({"do": "answer", "question": "hazards", "answer": []})
    assert found["problem"] == "Give an answer first."


@pytest.mark.parametrize(
    "text", ["__import__('os')", "a if b else c", "'x'", "a.b.c", "1 +", "f(1)"]
)
def test_a_sum_is_plain_arithmetic(text: str) -> None:
    with pytest.raises(BadSum):
        worked(text, named=lambda name: 1.0, read=lambda state, reading: 1.0)


def test_sums_are_worked_by_the_usual_rules() -> None:
    found = worked("-(a + 2 * s.r) / 4 ** 2", named={"a": 6.0}.__getitem__, read=lambda s, r: 5.0)
    assert found == -1.0
