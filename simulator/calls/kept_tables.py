"""Tables that one process has worked out, kept for the others of the same bench.

A class works the same few calls, each page in a process of its own. The folder belongs to one run
of a server and goes with it, so nothing in it can be older than the program; it is readable by the
server's own user only, and no page can write to it.
"""

import hashlib
import os
import pickle
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import TypeVar

try:
    import fcntl
except ImportError:  # not on every system; then a table may be worked out more than once
    fcntl = None  # type: ignore[assignment]

FOLDER = "BENCHCALL_TABLES"
QUEUE = "lock"  # one for all tables, for they take both time and memory
Table = TypeVar("Table")


def kept(wanted: object, made: Callable[[], Table], queue: str = QUEUE) -> Table:
    """A table, from the folder of the running bench if it is there.

    Parameters
    ----------
    wanted : object
        What it is for; its ``repr`` tells it from all others.
    made : callable
        Works it out.
    queue : str
        What is in the same one is worked out by one process at a time.

    Returns
    -------
    Table
        Worked out here where there is no folder, and by one process at a time where there is.
    """
    folder = os.environ.get(FOLDER, "")
    if not folder:
        return made()
    path = Path(folder) / f"{hashlib.sha256(repr(wanted).encode()).hexdigest()}.table"
    found: list[Table] = list(_read(path))
    if found:
        return found[0]
    try:
        path.parent.mkdir(mode=0o700, exist_ok=True)  # where somebody cleared it away
        with _alone(path.parent / queue):
            found = list(_read(path))  # another may have made it meanwhile
            if not found:
                found = [made()]
                _write(path, found[0])
    except OSError:
        # A full disk or a folder that cannot be costs time and nothing else.
        return found[0] if found else made()
    return found[0]


def _read(path: Path) -> Iterator[Table]:
    """The table, or nothing where there is none that can be read."""
    with suppress(OSError, EOFError, pickle.UnpicklingError):
        yield pickle.loads(path.read_bytes())


def _write(path: Path, table: object) -> None:
    """Whole or not at all."""
    beside = path.with_suffix(f".{os.getpid()}")
    beside.write_bytes(pickle.dumps(table, pickle.HIGHEST_PROTOCOL))
    beside.replace(path)


@contextmanager
def _alone(queue: Path) -> Iterator[None]:
    """One process at a time; a killed one lets go."""
    with queue.open("w") as lock:
        if fcntl is not None:
            fcntl.flock(lock, fcntl.LOCK_EX)
        yield
