"""How far a learner has come in the lessons: every answer is kept as it is given."""

from functools import lru_cache
from pathlib import Path
from typing import Any

from simulator.quantities.entered import BadEntry
from simulator.records.lesson_records import Answered, LessonRecords
from simulator.records.visit_records import RecordsError
from simulator.serve.learning import lesson
from simulator.serve.learning.texts import lesson_file
from simulator.serve.paths import RECORDS_FILE, data_directory
from simulator.widgets.panel import Handle

ASKING = ("number", "choice", "ticks", "what_if")
LONGEST_ANSWER = 1000


def lesson_records() -> LessonRecords:
    """The answers of this installation.

    Returns
    -------
    LessonRecords
        One connection pool a process and file.
    """
    return _at(data_directory() / RECORDS_FILE)


@lru_cache(maxsize=4)
def _at(path: Path) -> LessonRecords:
    return LessonRecords(path)


def questions(name: str) -> int:
    """How many questions a lesson asks.

    Parameters
    ----------
    name : str
        Of the lesson.

    Returns
    -------
    int
        [-]
    """
    parts = lesson_file(name)["parts"].values()
    return sum(block["kind"] in ASKING for part in parts for block in part["blocks"])


def progress(trainee: str) -> dict[str, int]:
    """Questions answered rightly, by lesson.

    Parameters
    ----------
    trainee : str
        The browser's own name.

    Returns
    -------
    dict
        Only lessons that were begun. [-]
    """
    found: dict[str, int] = {}
    for one in lesson_records().newest(trainee):
        found[one.lesson] = found.get(one.lesson, 0) + one.is_right
    return found


def keeping(name: str, part: str, trainee: str) -> Handle:
    """Answers the panel of one part, and keeps what was answered.

    Parameters
    ----------
    name, part : str
        Which.
    trainee : str
        The browser's own name; nothing is kept without one.

    Returns
    -------
    callable
        Takes a message, gives an answer.
    """
    handle = lesson.handler(name, part)

    def answer(message: dict[str, Any]) -> dict[str, Any]:
        found = handle(message)
        if not trainee or "problem" in found:
            return found
        try:
            if message.get("do") == "open":
                return {"blocks": _with_said(name, part, found["blocks"], trainee)}
            if "right" in found:
                _keep(name, part, trainee, message, found["right"])
        except RecordsError as problem:
            return {**found, "kept": str(problem)}
        return found

    return answer


def _keep(name: str, part: str, trainee: str, message: dict[str, Any], is_right: bool) -> None:
    given = message.get("answer", "")
    text = "\n".join(map(str, given)) if isinstance(given, list) else str(given)
    answered = Answered(
        lesson=name,
        part=part,
        question=str(message.get("question", "")),
        answer=text[:LONGEST_ANSWER],
        is_right=is_right,
    )
    lesson_records().add(trainee, answered)


def _with_said(
    name: str, part: str, blocks: list[dict[str, Any]], trainee: str
) -> list[dict[str, Any]]:
    """The blocks with what was answered before, judged anew: a lesson may have been mended."""
    said = {
        one.question: one.answer
        for one in lesson_records().newest(trainee)
        if (one.lesson, one.part) == (name, part)
    }
    shown = []
    for block in blocks:
        given = said.get(block.get("id", ""))
        if given is None:
            shown.append(block)
            continue
        try:
            again = lesson.judged(name, part, block["id"], given)
        except BadEntry:
            shown.append(block)
            continue
        shown.append({**block, "said": {"given": given, **again}})
    return shown
