"""A catalogue: everything the bench says, in one language."""

import os
import re
from collections.abc import Mapping
from functools import lru_cache
from importlib.resources import files
from pathlib import Path

from simulator.words import po
from simulator.words.figures import beside_figure, is_figure
from simulator.words.sentences import HOLE, Sentence, is_telling

ENGLISH = "en"
OWN_NAME = "X-Own-Name"
# A further folder of catalogues, for a translation that is not part of the bench.
FOLDER = "BENCHCALL_CATALOGUES"
_LETTERS = re.compile(r"[^\W\d_]{2}")
_QUOTED = re.compile(r'"((?:[^"\\\n]|\\.)*)"')
_SPACE = re.compile(r"(\s*\n\s*)")
_NUMBER = re.compile(r"\d+(?:,\d{3})*(?:\.\d+)?")
_SENTENCE_ENDS = (
    re.compile(r"((?<=[.?!]) )"),
    re.compile(r"(; )"),
    re.compile(r"(: )"),
    re.compile(r"(, | · | \(|\))"),
)
_ANY_END = re.compile(r"(?<=[.?!]) |; |: |, | · | \(|\)")
_NEXT = re.compile(r"[.?!] [A-Z]")
_ALL_QUOTED = re.compile(r'"([^"]+)"')
_STOPS = frozenset(".,;:")
_HEAD = 2000


class Catalogue:
    """English to another language.

    Parameters
    ----------
    language : str
        Its code, as in the ``lang`` of a page.
    said : mapping
        Message to what is said; English stands for all that is missing.
    """

    def __init__(self, language: str, said: Mapping[str, str]) -> None:
        self.language = language
        self._said = {text: other for text, other in said.items() if text}
        self._small = {text.lower(): _small(other) for text, other in self._said.items()}
        self._sentences = sorted(
            (Sentence(text, other) for text, other in self._said.items() if is_telling(text)),
            key=lambda sentence: -sentence.length,
        )
        # Their words are too few to know them by, unless figures stand in all their holes.
        self._short = [
            Sentence(text, other)
            for text, other in self._said.items()
            if len(HOLE.split(text)) > 1 and not is_telling(text)
        ]
        # A version of a call says what the call says, with other numbers.
        self._shapes: dict[str, tuple[str, str]] = {}
        for text, other in sorted(self._said.items(), key=lambda one: _told_apart(one[0])):
            if _NUMBER.search(text) and _LETTERS.search(text):
                self._shapes[_NUMBER.sub("#", text)] = (text, other)
        self._back: dict[str, str] = {}
        for text, other in self._said.items():
            self._back.setdefault(other, text)
        self.say = lru_cache(maxsize=8192)(self._say)

    def standing_in(self, script: str) -> dict[str, str]:
        """What is said for the texts of a script.

        Parameters
        ----------
        script : str
            JavaScript.

        Returns
        -------
        dict
            Message to what is said.
        """
        quoted = set(_QUOTED.findall(script)) if self._said else ()
        plain = (text.replace('\\"', '"') for text in quoted)
        return {text: self._said[text] for text in plain if text in self._said}

    def message(self, text: str) -> str:
        """What is said for a message, its holes still open.

        Parameters
        ----------
        text : str
            As it stands in the source, or a text with its holes filled.

        Returns
        -------
        str
            English where it is not translated.
        """
        return self._said[text] if text in self._said else self.say(text)

    def english(self, text: str) -> str:
        """What was meant by a text that this catalogue has said.

        Parameters
        ----------
        text : str
            In this language.

        Returns
        -------
        str
            The text itself where it is not from here.
        """
        return self._back.get(text, text)

    def _say(self, text: str) -> str:
        """A text of the bench in this language, as much of it as is known."""
        if not _LETTERS.search(text):
            return text
        if (bare := text.strip(" ")) != text:
            return text.replace(bare, self.say(bare))
        if "\n" in text:
            return "".join(self.say(part) for part in _SPACE.split(text))
        known = self._known(text)
        if known is not None:
            return known
        known = self._with_a_name(text) or self._with_and(text)
        if known is not None:
            return known
        name, colon, told = text.partition(": ")
        if colon and (known := self._known(told)) is not None:
            return self.say(name) + colon + known
        for ends in _SENTENCE_ENDS:
            parts = ends.split(text)
            if len(parts) > 1:
                return "".join(self.say(part) for part in self._whole(parts))
        return text

    def _with_and(self, text: str) -> str | None:
        """Names with "and" or "or" between them; none where one of them is not known."""
        for word in ("or", "and"):
            names = text.split(f" {word} ")
            known = [self._known(one) if _LETTERS.search(one) else one for one in names]
            if len(known) > 1 and None not in known:
                return f" {self.say(word)} ".join(name for name in known if name is not None)
        return None

    def _whole(self, parts: list[str]) -> list[str]:
        """Parts of a list, put together again where a name has a comma of its own."""
        at, whole = 0, []
        while at < len(parts):
            ends = range(len(parts), at + 1, -1)
            named = (end for end in ends if "".join(parts[at:end]).lower() in self._small)
            end = next(named, at + 1)
            whole.append("".join(parts[at:end]))
            at = end
        return whole

    def _known(self, text: str) -> str | None:
        """A text that stands in the catalogue, also with another first letter or a stop more."""
        if text in self._said:
            return self._said[text]
        if text.startswith("#"):
            marks, _, heading = text.partition(" ")
            return f"{marks} {self.say(heading)}"
        if (exact := self._exact(text)) is not None:
            return exact
        if (quoted := _ALL_QUOTED.fullmatch(text)) is not None:
            inner = self._known(quoted[1])
            return None if inner is None else f'"{inner}"'
        if (found := self._filled(text)) is not None:
            return found
        if (numbered := self._with_numbers(text)) is not None:
            return numbered
        if (beside := beside_figure(text, self._exact)) is not None:
            return beside
        large = text[:1].upper() + text[1:]
        found = None if large == text else self._filled(large)
        if found is None and text[-1:] in _STOPS and (bare := self._known(text[:-1])) is not None:
            return bare + text[-1]
        return None if found is None else _small(found)

    def _exact(self, text: str) -> str | None:
        """A text of the catalogue; its first letter is as large as it was."""
        if text in self._said:
            return self._said[text]
        small = self._small.get(text.lower())
        if small is None or text[:1].islower():
            return small
        return small[:1].upper() + small[1:]

    def _filled(self, text: str) -> str | None:
        """A sentence with holes; rather two sentences than one with the next one in a hole."""
        for sentence in self._short:
            found = sentence.filled(text)
            if found is not None and all(map(is_figure, found.values())):
                return sentence.told(found, self.say)
        swallowed = None
        for sentence in self._sentences:
            found = sentence.filled(text)
            if found is None:
                continue
            if not any(_NEXT.search(told) for told in found.values()):
                return sentence.told(found, self.say)
            swallowed = swallowed or (sentence, found)
        if swallowed is None:
            return None
        parts = _SENTENCE_ENDS[0].split(text)
        known = [self._known(part) if part.strip() else part for part in parts]
        if len(parts) > 1 and None not in known:
            return "".join(part for part in known if part is not None)
        return swallowed[0].told(swallowed[1], self.say)

    def _with_a_name(self, text: str) -> str | None:
        """A text that begins or ends with a name which has a comma or a colon of its own."""
        ends = list(_ANY_END.finditer(text))
        for end in reversed(ends[1:]):
            if (name := self._exact(text[: end.start()])) is not None:
                return name + end[0] + self.say(text[end.end() :])
        for end in ends[:-1]:
            if (name := self._exact(text[end.end() :])) is not None:
                return self.say(text[: end.start()]) + end[0] + name
        return None

    def _with_numbers(self, text: str) -> str | None:
        """A text of the catalogue but for its numbers, each of which stands for one other."""
        known, other = self._shapes.get(_NUMBER.sub("#", text), ("", ""))
        old, new = _NUMBER.findall(known), _NUMBER.findall(text)
        instead = dict(zip(old, new, strict=True)) if known else {}
        if not instead or any(instead[a] != b for a, b in zip(old, new, strict=True)):
            return None
        if not set(_NUMBER.findall(other)) <= instead.keys():
            return None
        return _NUMBER.sub(lambda found: instead[found[0]], other)


class _English(Catalogue):
    """What the bench speaks inside."""

    def __init__(self) -> None:
        super().__init__(ENGLISH, {})

    def _say(self, text: str) -> str:
        return text


def _told_apart(text: str) -> int:
    """How many numbers of a text are different ones, [-]."""
    return len(set(_NUMBER.findall(text)))


def languages() -> dict[str, str]:
    """Languages there are: English, and each that has a catalogue.

    Returns
    -------
    dict
        Code to the language's own name.
    """
    return {ENGLISH: "English"} | {code: _own_name(path) for code, path in _paths().items()}


@lru_cache
def catalogue(language: str) -> Catalogue:
    """The catalogue of a language.

    Parameters
    ----------
    language : str
        Its code; anything at all.

    Returns
    -------
    Catalogue
        English for a language without one.
    """
    path = _paths().get(language)
    if path is None:
        return _English()
    return Catalogue(language, po.read(path.read_text(encoding="utf-8")))


@lru_cache
def _paths() -> dict[str, Path]:
    own = Path(str(files("simulator.words"))) / "catalogues"
    more = os.environ.get(FOLDER)
    folders = [own, *([Path(more)] if more else [])]
    return {path.stem: path for folder in folders for path in sorted(folder.glob("*.po"))}


@lru_cache
def _own_name(path: Path) -> str:
    with path.open(encoding="utf-8") as file:
        return po.header(file.read(_HEAD)).get(OWN_NAME, path.stem)


def _small(text: str) -> str:
    return text[:1].lower() + text[1:]
