"""The language of a page: chosen on the home page, spoken where answers leave the bench."""

import re
from collections.abc import Sequence
from contextvars import ContextVar
from typing import Any

from simulator.widgets.panel import Handle
from simulator.words.answers import meant, spoken
from simulator.words.catalogue import ENGLISH, Catalogue, catalogue, languages

COOKIE = "benchcall-language"
# What the page under way is said in; each request is worked in a context of its own.
_NOW: ContextVar[str] = ContextVar("language", default=ENGLISH)
_TAG = re.compile(r"[A-Za-z]{2,3}")


def chosen(cookie: str, accepted: str) -> str:
    """The language for a browser.

    Parameters
    ----------
    cookie : str
        What was chosen here; empty without a choice.
    accepted : str
        What the browser says it reads, best first.

    Returns
    -------
    str
        One that there is; English if none fits.
    """
    there_are = languages()
    if cookie in there_are:
        return cookie
    for entry in accepted.split(","):
        tag = _TAG.match(entry.strip())
        if tag and tag[0].lower() in there_are:
            return tag[0].lower()
    return ENGLISH


def begin(language: str) -> None:
    """Say the page under way in a language.

    Parameters
    ----------
    language : str
        Its code.
    """
    _NOW.set(language)


def page_language() -> str:
    """The language of the page under way.

    Returns
    -------
    str
        Its code.
    """
    return _NOW.get()


def say(text: str, **holes: Any) -> str:
    """A text of the page under way, for templates.

    Parameters
    ----------
    text : str
        English, with holes such as ``{minutes}``.
    **holes
        What stands in them.

    Returns
    -------
    str
        In the page's language.
    """
    said = catalogue(_NOW.get()).message(str(text))
    return said.format(**holes) if holes else said


def said(row: dict[str, Any], own: Sequence[str] = ()) -> dict[str, Any]:
    """Texts of a row in the language of the page.

    Parameters
    ----------
    row : dict
        Plain data.
    own : sequence of str
        What people wrote themselves, which stays.

    Returns
    -------
    dict
    """
    return {
        key: say(value) if isinstance(value, str) and value and key not in own else value
        for key, value in row.items()
    }


def speaking(handle: Handle, words: Catalogue) -> Handle:
    """A handler that understands and answers in a language.

    Parameters
    ----------
    handle : callable
        Speaks English.
    words : Catalogue
        Of the language.

    Returns
    -------
    callable
        The same one for English.
    """
    if words.language == ENGLISH:
        return handle
    return lambda message: spoken(handle(meant(message, words)), words)
