"""Answers of the bench in the language of the page: plain data, walked once."""

import re
from typing import Any

from simulator.words.catalogue import Catalogue

# What a program reads and no person: names on the wire, addresses, marks.
CODES = frozenset(
    (
        *("id", "code", "seq", "number", "phase", "state", "mode", "units", "system"),
        *("here", "way", "mark", "group", "steadiness", "href", "token", "kind", "power"),
        *("key", "chart", "link", "question"),
    )
)
# What a person wrote, and what people and streets are called.
OWN_WORDS = frozenset(("write_up", "customer", "address", "who", "own_reason", "own_answer"))
# Where one small word is said to a person; elsewhere it is a name on the wire.
TOLD = frozenset(
    (
        "tool",
        "technique",
        "conditions",
        "caption",
        "columns",
        "words",
        "problem",
        "label",
        "rows",
        "text",
    )
)
_NAME = re.compile(r"[a-z][a-z0-9_]*")
# What a message carries that was one of the bench's own texts.
GIVEN = ("answer",)


def spoken(answer: dict[str, Any], catalogue: Catalogue) -> dict[str, Any]:
    """An answer in a language.

    Parameters
    ----------
    answer : dict
        Plain data, English.
    catalogue : Catalogue
        Of the language.

    Returns
    -------
    dict
        The same, its texts translated; codes and people's own words stay.
    """
    return {key: _spoken(key, value, catalogue) for key, value in answer.items()}


def meant(message: dict[str, Any], catalogue: Catalogue) -> dict[str, Any]:
    """A message as it would have been sent by an English page.

    Parameters
    ----------
    message : dict
        From the browser; anything at all.
    catalogue : Catalogue
        Of the page's language.

    Returns
    -------
    dict
        Answers that were chosen among translated ones stand in English.
    """
    return {
        key: _english(value, catalogue) if key in GIVEN else value for key, value in message.items()
    }


def _spoken(key: str, value: Any, catalogue: Catalogue) -> Any:
    if key in OWN_WORDS or (key in CODES and not isinstance(value, dict)):
        return value
    if isinstance(value, str):
        is_name = key not in TOLD and _NAME.fullmatch(value)
        return value if is_name else catalogue.say(value)
    if isinstance(value, dict):
        return spoken(value, catalogue)
    if isinstance(value, list | tuple):
        return [_spoken(key, item, catalogue) for item in value]
    return value


def _english(value: Any, catalogue: Catalogue) -> Any:
    if isinstance(value, list):
        return [_english(item, catalogue) for item in value]
    return catalogue.english(value) if isinstance(value, str) else value
