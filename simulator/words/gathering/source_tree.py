"""All messages of the bench, and the files in which each stands."""

from collections.abc import Callable, Iterator
from pathlib import Path

from simulator.words.gathering.data_words import notebook_texts, toml_texts
from simulator.words.gathering.page_words import script_texts, template_texts
from simulator.words.gathering.python_words import texts

PACKAGE = Path(__file__).resolve().parents[2]
# Below these floors nothing is said to a person; the command line speaks English.
_SPEAKING = ("quantities", "instruments", "faults", "repairs", "calls", "diagnosis", "scoring")
_SERVED = ("records", "widgets", "serve")
_COMMAND_LINE = (
    *(
        "serve/command.py",
        "serve/settings.py",
        "serve/kernels/page_kernels.py",
        "serve/kernels/kernel.py",
    ),
    *(
        "serve/application.py",
        "serve/paths.py",
        "serve/web/front_end.py",
    ),
    *("quantities/kinds.py", "records/schema.py", "serve/bench_readings.py"),
    *("calls/call_table.py", "calls/call_file.py", "calls/sealed.py"),
)
# They look for words in what was seen, or write as a trainee does, whose words stay his own.
_LOOKING = ("diagnosis/rules_of_thumb.py", "diagnosis/trainees.py")
_COMMAND_PARTS = ("serve/commands/", "serve/kernels/forking/")


def messages() -> dict[str, set[str]]:
    """Every text that people read.

    Returns
    -------
    dict
        Message to the files it stands in, in the order of files.
    """
    found: dict[str, set[str]] = {}
    for path, read in sources():
        for text in read(path.read_text(encoding="utf-8")):
            found.setdefault(text, set()).add(_short(path))
    return found


def scripts() -> list[Path]:
    """Scripts that hold a panel's words.

    Returns
    -------
    list
    """
    return sorted(PACKAGE.glob("widgets/**/words.js"))


def sources() -> Iterator[tuple[Path, Callable[[str], list[str]]]]:
    """Files in which something is said, each with how it is read.

    Yields
    ------
    tuple
        Path and reader.
    """
    for floor in (*_SPEAKING, *_SERVED):
        for path in sorted((PACKAGE / floor).rglob("*.py")):
            if not _is_command_line(path):
                yield path, texts
        for path in sorted((PACKAGE / floor).rglob("*.toml")):
            yield path, toml_texts
    for path in scripts():
        yield path, script_texts
    for path in sorted((PACKAGE / "serve" / "templates").rglob("*.*")):
        if path.suffix in (".html", ".j2", ".svg"):
            yield path, template_texts
    for path in sorted(_lessons().glob("*.ipynb")):
        yield path, notebook_texts


def _lessons() -> Path:
    inside = PACKAGE / "lessons"
    return inside if inside.is_dir() else PACKAGE.parent / "lessons"


def _short(path: Path) -> str:
    return path.relative_to(PACKAGE.parent).as_posix()


def _is_command_line(path: Path) -> bool:
    inside = path.relative_to(PACKAGE).as_posix()
    return inside in (*_COMMAND_LINE, *_LOOKING) or any(part in inside for part in _COMMAND_PARTS)
