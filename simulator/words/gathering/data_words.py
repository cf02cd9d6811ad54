"""Texts for people in data files: calls, lessons, the glossary, notebooks."""

import json
import re
import tomllib
from collections.abc import Iterator
from typing import Any

from simulator.words.sentences import has_words

# Keys under which a data file holds names, sums and addresses of programs.
CODES = frozenset(
    (
        *("house", "unit", "metering", "kind", "id", "states", "readings", "sum", "href"),
        *("faults", "causes", "repairs", "proof", "places", "step", "numbers", "outdoor"),
        *("refrigerant", "notebook", "page", "calls", "cell_type", "source"),
        *("houses", "units", "said"),
    )
)
# A reading of a state, as a lesson's answer: ``weak/healthy.airflow``.
_READING = re.compile(r"[\w/-]+\.\w+")
# What people and streets are called stays in every language.
OWN_NAMES = frozenset(("customer", "address"))


def toml_texts(source: str) -> list[str]:
    """Texts of a data file that people read.

    Parameters
    ----------
    source : str
        TOML.

    Returns
    -------
    list
        In the order in which they stand, holes as they are.
    """
    return list(dict.fromkeys(_texts(tomllib.loads(source))))


def _texts(value: Any) -> Iterator[str]:
    match value:
        case str():
            if has_words(value) and not _READING.fullmatch(value):
                yield value.strip()
        case dict():
            for key, inner in value.items():
                # A lesson's states are a table of names; elsewhere a list of them is codes.
                is_table = key == "states" and isinstance(inner, dict)
                # A unit that is said in words is said in those of the language.
                is_said = key == "unit" and " per " in inner
                if is_table or is_said or key not in CODES | OWN_NAMES:
                    yield from _texts(inner)
        case list():
            for inner in value:
                yield from _texts(inner)


def notebook_texts(source: str) -> list[str]:
    """Prose of a notebook, paragraph by paragraph, and what the home page says of it.

    Parameters
    ----------
    source : str
        The notebook.

    Returns
    -------
    list
        Headings without their marks.
    """
    notebook = json.loads(source)
    block = notebook["metadata"].get("benchcall", {})
    found = [str(block[key]) for key in ("title", "aim", "level") if key in block]
    for cell in notebook["cells"]:
        if cell["cell_type"] == "markdown":
            lines = "".join(cell["source"]).split("\n")
            found += [line.lstrip("# ").strip() for line in lines if has_words(line)]
    return list(dict.fromkeys(found))
