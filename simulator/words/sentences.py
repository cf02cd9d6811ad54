"""Sentences with holes: ``Waited {minutes} min.`` and what is said in another language.

English is spoken inside, so that floors stay pure and records stay readable in every language;
a sentence is recognised where it leaves the bench, by the words between its holes.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cache

HOLE = re.compile(r"\{[^{}]*\}")
_TELLING = 4  # letters: "at" between two holes would cut any sentence in two
_TELLING_START = 5  # letters of one that starts with a small letter: "the" starts too many
# A number stands in these and nothing else.
_COUNTS = frozenset(("{minutes}", "{minute}", "{n}", "{more}"))
_WORD = re.compile(r"[^\W\d_]{2}")


@dataclass(frozen=True, slots=True)
class Sentence:
    """One sentence with holes.

    Parameters
    ----------
    english : str
        As it stands in the source.
    said : str
        As it is said, with the same holes.
    """

    english: str
    said: str
    _words: str = field(init=False, repr=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "_words", max(HOLE.split(self.english), key=len))

    @property
    def length(self) -> int:
        """Signs outside the holes.

        Returns
        -------
        int
            [-]
        """
        return sum(map(len, HOLE.split(self.english)))

    def filled(self, text: str) -> dict[str, str] | None:
        """What stands in the holes of a text that follows this sentence.

        Parameters
        ----------
        text : str
            English, its holes filled.

        Returns
        -------
        dict or None
            None where the text is another sentence.
        """
        if self._words not in text:
            return None
        found = _compiled(self.english).fullmatch(text)
        if found is None:
            return None
        return dict(zip(dict.fromkeys(HOLE.findall(self.english)), found.groups(), strict=True))

    def told(self, filled: Mapping[str, str], say: Callable[[str], str]) -> str:
        """The sentence in the other language.

        Parameters
        ----------
        filled : mapping
            Hole to its English text.
        say : callable
            Translates what is in the holes.

        Returns
        -------
        str
        """
        return HOLE.sub(lambda hole: say(filled.get(hole[0], "")), self.said)


def has_words(message: str) -> bool:
    """Whether a message has words outside its holes, by which it can be recognised.

    Parameters
    ----------
    message : str
        With or without holes.

    Returns
    -------
    bool
    """
    return any(_WORD.search(part) for part in HOLE.split(message))


def is_telling(message: str) -> bool:
    """Whether a message has holes, and words enough around them to be recognised by.

    Parameters
    ----------
    message : str
        One that begins with a hole or a small letter needs a longer word than one that does not.

    Returns
    -------
    bool
    """
    parts = HOLE.split(message)
    letters = sum(sign.isalpha() for part in parts for sign in part)
    start = parts[0].strip()[:1]
    enough = 1 if start.isupper() else _TELLING_START if start else _TELLING
    return len(parts) > 1 and letters >= enough


@cache
def _compiled(english: str) -> re.Pattern[str]:
    """Made when a text first holds the sentence's words: most never do."""
    return re.compile(_pattern(english), re.DOTALL)


def _pattern(english: str) -> str:
    """Each hole takes as little as it can; the same hole takes the same."""
    seen: dict[str, int] = {}
    pattern = ""
    at = 0
    for hole in HOLE.finditer(english):
        pattern += re.escape(english[at : hole.start()])
        at = hole.end()
        if hole[0] in seen:
            pattern += rf"(?:\{seen[hole[0]]})"
        else:
            seen[hole[0]] = len(seen) + 1
            pattern += r"([-−]?[\d.,]+)" if hole[0] in _COUNTS else "(.*?)"
    return pattern + re.escape(english[at:])
