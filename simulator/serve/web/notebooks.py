"""The pages there are: every notebook that says in its metadata what it is."""

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

KINDS = ("lesson", "test-stand", "call", "debrief")


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson:
    """One notebook that may be opened as a page.

    Parameters
    ----------
    notebook : str
        File name, the last part of the page's address.
    title : str
        As listed on the home page.
    kind : str
        ``lesson``, or the page of the bench it is: ``test-stand``, ``call``, ``debrief``.
    level : str
        Who it is for, in a word.
    aim : str
        What the learner can do afterwards, in a sentence.
    minutes : int
        How long it takes. [min]
    calls : tuple of str
        Service calls that practise it.
    """

    notebook: str
    title: str
    kind: str
    level: str
    aim: str
    minutes: int
    calls: tuple[str, ...]


def pages(folder: Path) -> tuple[Lesson, ...]:
    """Every notebook of a folder that may be opened.

    A notebook without a complete ``benchcall`` block in its metadata is left
    out, so that a draft or a stray file is never run for a stranger.

    Parameters
    ----------
    folder : Path
        The lessons folder.

    Returns
    -------
    tuple of Lesson
        In order of file name.
    """
    found = (_described(path) for path in sorted(folder.glob("*.ipynb")))
    return tuple(lesson for lesson in found if lesson is not None)


def _described(path: Path) -> Lesson | None:
    try:
        block: Any = json.loads(path.read_text(encoding="utf-8"))["metadata"]["benchcall"]
        lesson = Lesson(
            notebook=path.name,
            title=str(block["title"]),
            kind=str(block["page"]),
            level=str(block["level"]),
            aim=str(block["aim"]),
            minutes=int(block["minutes"]),
            calls=tuple(str(call) for call in block["calls"]),
        )
    except (OSError, ValueError, KeyError, TypeError):
        return None
    return lesson if lesson.kind in KINDS else None
