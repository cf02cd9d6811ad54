"""The folder in which the pages of one run of the server share what takes seconds to work out."""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from tempfile import TemporaryDirectory

from simulator.calls.kept_tables import FOLDER
from simulator.serve.paths import data_directory

PREFIX = "tables-"


@contextmanager
def shared_tables() -> Iterator[None]:
    """Let all kernels of this server know of a folder of its own, gone when it stops."""
    folder = data_directory()
    for left in folder.glob(f"{PREFIX}*"):
        shutil.rmtree(left, ignore_errors=True)  # of a server that was killed
    with TemporaryDirectory(prefix=PREFIX, dir=folder, ignore_cleanup_errors=True) as own:
        os.environ[FOLDER] = own
        try:
            yield
        finally:
            os.environ.pop(FOLDER, None)
