"""Lessons: parts of a file shown between prose, answers judged with a tolerance and a reason."""

import re
from collections.abc import Callable
from typing import Any

from simulator.quantities.entered import BadEntry
from simulator.quantities.kinds import KINDS
from simulator.quantities.shown import MINUS, printed
from simulator.serve.learning.texts import (
    LABELS,
    kind_of,
    lesson_file,
    number,
    state_table,
    total,
    written,
)

BESIDE_FIRST = "Above and below: beside the healthy house in the first column."
BESIDE_USUAL = (
    "Above and below: beside the usual day in the first column. The unit is sound in all."
)


def blocks(lesson: str, part: str) -> list[dict[str, Any]]:
    """What one part shows; answers stay behind.

    Parameters
    ----------
    lesson, part : str
        Which.

    Returns
    -------
    list
        Plain data.
    """
    return [_block(lesson, block) for block in lesson_file(lesson)["parts"][part]["blocks"]]


def _block(lesson: str, block: dict[str, Any]) -> dict[str, Any]:
    match block["kind"]:
        case "table":
            return _table_block(lesson, block)
        case "number" if "sum" in block:
            return {
                "kind": "question",
                "id": block["id"],
                "text": written(lesson, block["text"]),
                "unit": block["unit"],
            }
        case "ticks":
            return {
                "kind": "ticks",
                "id": block["id"],
                "text": block["text"],
                "choices": block["choices"],
            }
        case "number":
            states, reading = block["answer"].split(".")
            unit = (
                "%"
                if "/" in states
                else state_table(lesson, re.split("[-/]", states)[0])[reading]["unit"]
            )
            return {"kind": "question", "id": block["id"], "text": block["text"], "unit": unit}
        case "choice":
            return {
                "kind": "question",
                "id": block["id"],
                "text": block["text"],
                "choices": block["choices"],
            }
        case "link":
            return dict(block)
        case "what_if":
            return _what_if_block(lesson, block)
        case "circuit":
            return _circuit_block(lesson, block)
        case _:
            return {"kind": "text", "text": written(lesson, block["text"])}


def _table_block(lesson: str, block: dict[str, Any]) -> dict[str, Any]:
    states = lesson_file(lesson)["states"]
    rows = []
    for reading in block["readings"]:
        values = [written(lesson, f"{{{state}.{reading}}}") for state in block["states"]]
        rows.append({"name": LABELS[reading], "values": values})
    columns = [states[state]["name"] for state in block["states"]]
    return {"kind": "table", "title": block["title"], "columns": columns, "rows": rows}


def _circuit_block(lesson: str, block: dict[str, Any]) -> dict[str, Any]:
    """The circuit drawn, with the readings of one state at its places; and the same in words."""
    labels = {place: written(lesson, text) for place, text in block["labels"].items()}
    shown = {key: written(lesson, block[key]) for key in ("title", "told")}
    return {"kind": "circuit", "labels": labels, **shown}


def _what_if_block(lesson: str, block: dict[str, Any]) -> dict[str, Any]:
    """What can be tried, without a single value: those come one state at a time."""
    first = block["states"][0]
    rows = [
        {"name": LABELS[reading], "unit": state_table(lesson, first)[reading]["unit"]}
        for reading in block["readings"]
    ]
    names = lesson_file(lesson)["states"]
    states = [{"state": state, "name": names[state]["name"]} for state in block["states"]]
    shown = {key: block[key] for key in ("kind", "id", "title", "intro", "text", "choices")}
    beside = BESIDE_FIRST if block.get("is_first_healthy", True) else BESIDE_USUAL
    return {**shown, "states": states, "rows": rows, "beside": beside}


def tried(lesson: str, part: str, question: str, state: str, predicted: str) -> dict[str, Any]:
    """Readings of one state that a learner asks for, once a prediction is made.

    Parameters
    ----------
    lesson, part, question : str
        Which.
    state : str
        One of those that can be tried.
    predicted : str
        The learner's choice.

    Returns
    -------
    dict
        ``cells``, one a reading, and ``said``, the same in a sentence.

    Raises
    ------
    BadEntry
        For an unknown question or state, or without a prediction.
    """
    block = _asked(lesson, part, question)
    if block["kind"] != "what_if" or state not in block["states"]:
        raise BadEntry("That cannot be tried here.")
    if predicted not in block["choices"]:
        raise BadEntry("Predict first: choose one of the answers.")
    cells, said = [], []
    for reading in block["readings"]:
        decimals = KINDS[kind_of(reading)].us.decimals
        value = round(number(lesson, state, reading), decimals) + 0.0
        # As printed: nobody can see a move between two equal figures.
        move = round(value - round(number(lesson, block["states"][0], reading), decimals), decimals)
        moved = _apart(move, f"{abs(move):,.{decimals}f}")
        text = printed(value, decimals)
        cells.append({"value": text, "move": moved})
        unit = state_table(lesson, state)[reading]["unit"]
        beside = f", {moved} healthy" if block.get("is_first_healthy", True) else f", {moved} usual"
        said.append(f"{LABELS[reading].lower()} {text} {unit}{beside if moved else ''}")
    name = lesson_file(lesson)["states"][state]["name"]
    return {"cells": cells, "said": f"{name}: {'; '.join(said)}."}


def _apart(move: float, size: str) -> str:
    if not move:
        return ""
    return f"{size} above" if move > 0 else f"{size} below"


def _asked(lesson: str, part: str, question: str) -> dict[str, Any]:
    asked = {b["id"]: b for b in lesson_file(lesson)["parts"][part]["blocks"] if "id" in b}
    if question not in asked:
        raise BadEntry("There is no such question in this part.")
    found: dict[str, Any] = asked[question]
    return found


def judged(lesson: str, part: str, question: str, answer: str) -> dict[str, Any]:
    """Whether an answer is right, and the reason in either case.

    Parameters
    ----------
    lesson, part, question : str
        Which.
    answer : str
        As typed or chosen.

    Returns
    -------
    dict
        ``right`` and ``reason``.

    Raises
    ------
    BadEntry
        For an unknown question, or something that is not an answer.
    """
    block = _asked(lesson, part, question)
    if not answer.strip():
        raise BadEntry("Give an answer first.")
    reason = written(lesson, block["reason"])
    if block["kind"] == "ticks":
        return _judged_ticks(block, answer.split("\n"), reason)
    if "choices" in block:
        if answer not in block["choices"]:
            raise BadEntry("Choose one of the answers.")
        return {"right": answer == block["answer"], "reason": reason}
    try:
        given = float(answer.replace(MINUS, "-").rstrip(" %°F"))
    except ValueError:
        raise BadEntry(f"The answer must be a number, not {answer[:40]!r}.") from None
    right = _right(lesson, block)
    # A move may be given with or without its sign.
    off = min(abs(given - right), abs(given - abs(right)))
    return {"right": off <= block["tolerance"], "reason": reason}


def _right(lesson: str, block: dict[str, Any]) -> float:
    if "sum" in block:
        return total(lesson, block["sum"])
    states, reading = block["answer"].split(".")
    return number(lesson, states, reading)


def _judged_ticks(block: dict[str, Any], ticked: list[str], reason: str) -> dict[str, Any]:
    if not set(ticked) <= set(block["choices"]):
        raise BadEntry("Tick some of the answers.")
    hit = len(set(ticked) & set(block["answer"]))
    beside = len(set(ticked) - set(block["answer"]))
    all_right = len(block["answer"])
    count = f"{hit} of {all_right} found"
    if beside:
        count = f"{hit} of {all_right} found, {beside} ticked beside them"
    is_right = hit == all_right and not beside
    return {"right": is_right, "reason": f"{count}. {reason}"}


def _given(answer: object) -> str:
    """One text, also where several answers were ticked."""
    return "\n".join(str(one) for one in answer) if isinstance(answer, list) else str(answer)


def handler(lesson: str, part: str) -> Callable[[dict[str, Any]], dict[str, Any]]:
    """Answers the panel of one part.

    Parameters
    ----------
    lesson, part : str
        Which.

    Returns
    -------
    callable
        Takes a message, gives an answer.
    """

    def handle(message: dict[str, Any]) -> dict[str, Any]:
        if message.get("do") == "open":
            return {"blocks": blocks(lesson, part)}
        question, answer = str(message.get("question", "")), _given(message.get("answer", ""))
        try:
            if message.get("do") == "try":
                return tried(lesson, part, question, str(message.get("state", "")), answer)
            return judged(lesson, part, question, answer)
        except BadEntry as problem:
            return {"problem": str(problem)}

    return handle
