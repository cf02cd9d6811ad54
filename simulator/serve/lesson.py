"""Lessons: parts of a file shown between prose, with every number computed."""

import re
import tomllib
from collections.abc import Callable
from functools import lru_cache
from importlib.resources import files
from typing import Any

from simulator.quantities.entered import BadEntry
from simulator.quantities.kinds import KINDS
from simulator.quantities.shown import MINUS
from simulator.serve import bench_readings
from simulator.serve.bench_readings import READINGS, TRUTH
from simulator.serve.bench_setting import Setting

LABELS = {
    "airflow": "Airflow",
    "filter_drop": "Filter drop",
    "coil_drop": "Coil drop",
    "total_external_static": "Total external static",
    "suction_pressure": "Suction pressure",
    "liquid_pressure": "Liquid pressure",
    "superheat": "Superheat",
    "subcooling": "Subcooling",
    "temperature_split": "Split at the air handler",
    "delivered_capacity": "Cooling that reaches the rooms",
}
_HOLE = re.compile(r"\{([\w-]+)\.(\w+)\}")


@lru_cache
def lesson_file(name: str) -> dict[str, Any]:
    """The parts of one lesson.

    Parameters
    ----------
    name : str
        As the notebook is named.

    Returns
    -------
    dict
        States and parts.
    """
    path = files("simulator.serve").joinpath("lesson_parts", f"{name}.toml")
    return tomllib.loads(path.read_text(encoding="utf-8"))


@lru_cache
def _table(lesson: str, state: str) -> dict[str, dict[str, Any]]:
    """Readings and truth of one state, in the technician's units."""
    given = {k: v for k, v in lesson_file(lesson)["states"][state].items() if k != "name"}
    found = bench_readings.as_table(bench_readings.solved(Setting(**given)))
    return {**found["readings"], **found["truth"]}


def _kind(reading: str) -> str:
    if reading == "temperature_split":
        return "temperature_difference"
    return {**READINGS, **TRUTH}[reading][1]


def number(lesson: str, states: str, reading: str) -> float:
    """A reading, or how it moved.

    Parameters
    ----------
    lesson : str
        Which lesson.
    states : str
        One state, ``first-second`` or ``first/second``; the last in percent.
    reading : str
        Its name.

    Returns
    -------
    float
        In the technician's unit. [-]
    """
    first, sign, second = re.match(r"(\w+)([-/]?)(\w*)", states).groups()  # type: ignore[union-attr]
    value = float(_table(lesson, first)[reading]["value"])
    if not sign:
        return value
    other = float(_table(lesson, second)[reading]["value"])
    return value - other if sign == "-" else 100.0 * value / other


def written(lesson: str, text: str) -> str:
    """A text with its holes filled.

    Parameters
    ----------
    lesson : str
        Which lesson.
    text : str
        With ``{state.reading}`` in it.

    Returns
    -------
    str
        As people read it.
    """

    def filled(hole: re.Match[str]) -> str:
        states, reading = hole.groups()
        decimals = KINDS[_kind(reading)].us.decimals
        value = round(number(lesson, states, reading), decimals) + 0.0
        unit = _table(lesson, re.split("[-/]", states)[0])[reading]["unit"]
        return f"{value:,.{decimals}f}\u00a0{unit}".replace("-", MINUS)

    return _HOLE.sub(filled, text)


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
        case "number":
            states, reading = block["answer"].split(".")
            unit = (
                "%"
                if "/" in states
                else _table(lesson, re.split("[-/]", states)[0])[reading]["unit"]
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


def _what_if_block(lesson: str, block: dict[str, Any]) -> dict[str, Any]:
    """What can be tried, without a single value: those come one state at a time."""
    first = block["states"][0]
    rows = [
        {"name": LABELS[reading], "unit": _table(lesson, first)[reading]["unit"]}
        for reading in block["readings"]
    ]
    names = lesson_file(lesson)["states"]
    states = [{"state": state, "name": names[state]["name"]} for state in block["states"]]
    shown = {key: block[key] for key in ("kind", "id", "title", "intro", "text", "choices")}
    return {**shown, "states": states, "rows": rows}


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
        decimals = KINDS[_kind(reading)].us.decimals
        value = round(number(lesson, state, reading), decimals) + 0.0
        # As printed: nobody can see a move between two equal figures.
        move = round(value - round(number(lesson, block["states"][0], reading), decimals), decimals)
        moved = f"{abs(move):,.{decimals}f} {'above' if move > 0 else 'below'}" if move else ""
        text = f"{value:,.{decimals}f}".replace("-", MINUS)
        cells.append({"value": text, "move": moved})
        unit = _table(lesson, state)[reading]["unit"]
        healthy = f", {moved} healthy" if moved else ""
        said.append(f"{LABELS[reading].lower()} {text} {unit}{healthy}")
    name = lesson_file(lesson)["states"][state]["name"]
    return {"cells": cells, "said": f"{name}: {'; '.join(said)}."}


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
    if "choices" in block:
        if answer not in block["choices"]:
            raise BadEntry("Choose one of the answers.")
        return {"right": answer == block["answer"], "reason": reason}
    try:
        given = float(answer.replace(MINUS, "-").rstrip(" %°F"))
    except ValueError:
        raise BadEntry(f"The answer must be a number, not {answer[:40]!r}.") from None
    states, reading = block["answer"].split(".")
    right = number(lesson, states, reading)
    # A move may be given with or without its sign.
    off = min(abs(given - right), abs(given - abs(right)))
    return {"right": off <= block["tolerance"], "reason": reason}


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
        question, answer = str(message.get("question", "")), str(message.get("answer", ""))
        try:
            if message.get("do") == "try":
                return tried(lesson, part, question, str(message.get("state", "")), answer)
            return judged(lesson, part, question, answer)
        except BadEntry as problem:
            return {"problem": str(problem)}

    return handle
