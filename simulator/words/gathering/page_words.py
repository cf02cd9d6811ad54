"""Texts for people in what a browser gets: templates and the words of the panels' scripts."""

import re

from simulator.words.sentences import has_words

_TEXT = r'"((?:[^"\\\n]|\\.)*)"'
_SAID = re.compile(rf"\bsay\(\s*{_TEXT}")
_COMMENT = re.compile(r"^\s*//.*$", re.MULTILINE)
_QUOTED = re.compile(rf"{_TEXT}(\s*:)?")
_SPAN = re.compile(r"`[^`]*`|=>")


def template_texts(source: str) -> list[str]:
    """Texts that a template says.

    Parameters
    ----------
    source : str
        Jinja, with ``say("…")`` around what people read.

    Returns
    -------
    list
    """
    return list(dict.fromkeys(_plain(text) for text in _SAID.findall(source)))


def script_texts(source: str) -> list[str]:
    """Texts of a script that holds nothing else.

    Parameters
    ----------
    source : str
        A ``words.js``.

    Returns
    -------
    list
    """
    found = _QUOTED.findall(_COMMENT.sub("", source))
    values = [text for text, colon in found if not colon]
    return list(dict.fromkeys(_plain(text) for text in values if has_words(text)))


def cannot_be_translated(source: str) -> list[str]:
    """What a script of words may not hold: texts that are put together.

    Parameters
    ----------
    source : str
        A ``words.js``.

    Returns
    -------
    list
        Empty where all is well.
    """
    return _SPAN.findall(_COMMENT.sub("", source))


def _plain(text: str) -> str:
    return text.replace('\\"', '"').replace("\\n", "\n")
