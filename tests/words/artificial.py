"""A language in which every message wears brackets: what shows none was never in a catalogue."""

import re
from functools import lru_cache
from pathlib import Path
from typing import Any

from simulator.words import po
from simulator.words.answers import CODES, OWN_WORDS
from simulator.words.catalogue import Catalogue
from simulator.words.gathering.source_tree import messages

CODE = "qaa"  # from ISO 639's range for private use
_INNERMOST = re.compile(r"⟦[^⟦⟧]*⟧")
_WORD = re.compile(r"[a-z]{3}")
# Units, colours of wires and the like are the same in every language the bench may learn.
SAME = re.compile(
    r"\b(min|psig?|kPa|cfm per ton|cfm|fpm|rpm|ppm|gal|lb|kWh|degree|in wc|Btu/h|tons?|Benchcall)\b"
)


@lru_cache
def bracketed() -> dict[str, str]:
    """Every message in brackets."""
    return {message: f"⟦{message}⟧" for message in messages()}


@lru_cache
def artificial() -> Catalogue:
    """The whole language."""
    return Catalogue(CODE, bracketed())


def written_to(folder: Path) -> None:
    """As a translator's file."""
    fields = {"Language": CODE, "X-Own-Name": "⟦brackets⟧"}
    text = po.written(fields, messages(), bracketed())
    (folder / f"{CODE}.po").write_text(text, encoding="utf-8")


def left_in_english(text: str) -> str:
    """What of a text stands in no brackets, if it has words."""
    while _INNERMOST.search(text):
        text = _INNERMOST.sub("", text)
    text = SAME.sub("", text)
    return text if _WORD.search(text) else ""


def english_in(answer: Any, key: str = "") -> list[str]:
    """Texts of an answer that are English still, codes and people's own words apart."""
    if key in OWN_WORDS or (key in CODES and not isinstance(answer, dict)):
        return []
    if isinstance(answer, dict):
        return [found for name, value in answer.items() for found in english_in(value, name)]
    if isinstance(answer, list | tuple):
        return [found for value in answer for found in english_in(value, key)]
    left = left_in_english(answer) if isinstance(answer, str) else ""
    # A name on the wire has neither space nor capital.
    return [f"{key}: {answer}"] if left and not re.fullmatch(r"[a-z0-9_]+", answer) else []
