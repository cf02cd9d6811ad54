"""The folder in which the pages of one run of the server share what takes seconds to work out."""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import mkstemp
from typing import IO

from simulator.calls.kept_tables import FOLDER
from simulator.serve.paths import data_directory

try:
    import fcntl
except ImportError:  # not on every system; there an open file cannot be deleted
    fcntl = None  # type: ignore[assignment]

PREFIX = "tables-"
OWNED = ".owned"  # held by a server as long as it lives; a killed one lets go


@contextmanager
def shared_tables() -> Iterator[None]:
    """Let all kernels of this server know of a folder of its own, gone when it stops."""
    data = data_directory()
    for left in data.glob(f"{PREFIX}*"):
        if left.is_dir():
            _remove_if_dead(left)
    # Owned before it is a folder, so that no other server ever sees it without an owner.
    handle, name = mkstemp(prefix=PREFIX, suffix=OWNED, dir=data)
    claim = Path(name)
    own = claim.with_suffix("")
    try:
        with os.fdopen(handle, "w") as owned:
            _is_ours(owned)
            own.mkdir(mode=0o700)
            os.environ[FOLDER] = str(own)
            yield
    finally:
        os.environ.pop(FOLDER, None)
        shutil.rmtree(own, ignore_errors=True)
        claim.unlink(missing_ok=True)


def _remove_if_dead(folder: Path) -> None:
    """Remove what a server left that was killed, and nothing of one that lives."""
    claim = folder.with_suffix(OWNED)
    try:
        with claim.open("a") as owned:
            if not _is_ours(owned):
                return
            if fcntl is not None:
                shutil.rmtree(folder, ignore_errors=True)
        claim.unlink(missing_ok=True)
        shutil.rmtree(folder, ignore_errors=True)
    except OSError:
        return  # another server's, or held by it


def _is_ours(owned: IO[str]) -> bool:
    """Whether no other server holds it, as far as this system can tell at once."""
    if fcntl is None:
        return True
    try:
        fcntl.flock(owned, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True
