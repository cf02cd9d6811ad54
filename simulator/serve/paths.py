"""Where Benchcall keeps its data, its log and its lessons."""

import os
import sys
from pathlib import Path

RECORDS_FILE = "visits.sqlite"
PACKAGE = Path(__file__).resolve().parent.parent
TEMPLATES = PACKAGE / "serve" / "templates"


def data_directory() -> Path:
    """The folder of everything that must outlive a page: visits and the log.

    ``BENCHCALL_DATA`` names it; otherwise it is the place the platform gives
    to a user's application data. It is created on first use, readable by its
    owner only.

    Returns
    -------
    Path
        An existing folder.

    Raises
    ------
    ValueError
        When the folder lies among the lessons, whose files may be served.
    """
    chosen = os.environ.get("BENCHCALL_DATA", "").strip()
    folder = Path(chosen).expanduser().resolve() if chosen else _platform_folder()
    if folder.is_relative_to(lessons_directory()):
        raise ValueError("The data folder must not lie inside the lessons folder.")
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    return folder


def log_file(name: str) -> Path:
    """The file that receives what a learner must never see.

    Parameters
    ----------
    name : str
        ``server`` or ``kernel``.

    Returns
    -------
    Path
        A file in the data folder; it need not exist yet.
    """
    folder = data_directory() / "log"
    folder.mkdir(mode=0o700, exist_ok=True)
    return folder / f"{name}.log"


def lessons_directory() -> Path:
    """The folder whose notebooks are the pages.

    ``BENCHCALL_LESSONS`` names another one, for an instructor's own lessons.
    An installed package carries the lessons inside; a clone has them beside
    the package.

    Returns
    -------
    Path
        The folder, whether or not it exists.
    """
    chosen = os.environ.get("BENCHCALL_LESSONS", "").strip()
    if chosen:
        return Path(chosen).expanduser().resolve()
    inside = PACKAGE / "lessons"
    return inside if inside.is_dir() else PACKAGE.parent / "lessons"


def _platform_folder() -> Path:
    home = Path.home()
    if sys.platform == "win32":
        base = Path(os.environ.get("LOCALAPPDATA", home / "AppData" / "Local"))
    elif sys.platform == "darwin":
        base = home / "Library" / "Application Support"
    else:
        base = Path(os.environ.get("XDG_DATA_HOME") or home / ".local" / "share")
    return (base / "benchcall").resolve()
