"""Units and houses of one's own: files in the data folder, or a path that was typed."""

import re
from pathlib import Path

from simulator.serve import paths
from simulator.serve.stand.given import need_word
from simulator.serve.stand.limits import HOUSES, UNITS

ENDING = ".toml"
SHIPPED = {"unit": UNITS, "house": HOUSES}
# Where the owner of the bench puts files; a page can name what lies there and nothing else.
FOLDERS = {"unit": "equipment", "house": "houses"}
TOLD = {"unit": "the unit", "house": "the house"}
NAME = re.compile(r"[a-z0-9_]{1,40}")


def folder(kind: str) -> Path:
    """Where files of one's own belong.

    Parameters
    ----------
    kind : str
        ``unit`` or ``house``.

    Returns
    -------
    Path
        It need not exist.
    """
    return paths.data_directory() / FOLDERS[kind]


def offered(kind: str) -> tuple[str, ...]:
    """Shipped names, then one's own.

    Parameters
    ----------
    kind : str
        ``unit`` or ``house``.

    Returns
    -------
    tuple of str
        File names without ending. A shipped name cannot be taken by another file.
    """
    shipped = SHIPPED[kind]
    own = sorted(path.stem for path in folder(kind).glob(f"*{ENDING}"))
    return (*shipped, *(name for name in own if NAME.fullmatch(name) and name not in shipped))


def source_of(kind: str, word: str) -> str:
    """What the plant's catalogue loads for a word.

    Parameters
    ----------
    kind : str
        ``unit`` or ``house``.
    word : str
        One of ``offered``, or a path.

    Returns
    -------
    str
        A shipped name or the path of a file.
    """
    own = word not in SHIPPED[kind] and not word.endswith(ENDING)
    return str(folder(kind) / f"{word}{ENDING}") if own else word


def need_offered(kind: str, word: object, *, paths_too: bool) -> None:
    """Refuse what is neither shipped nor one's own.

    Parameters
    ----------
    kind : str
        ``unit`` or ``house``.
    word : object
        As given.
    paths_too : bool
        Whether a path may stand in for a name: to the owner of the files, not to a page.

    Raises
    ------
    BadEntry
        Naming what there is.
    """
    if isinstance(word, str) and word in SHIPPED[kind]:
        return  # with every touch of the stand: no folder is looked through for it
    if paths_too and isinstance(word, str) and word.endswith(ENDING):
        return  # what is wrong with the file is said where it is read
    need_word(word, TOLD[kind], offered(kind))
