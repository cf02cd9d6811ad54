"""A fault that a link holds and does not tell: the server keeps it until it is revealed."""

from functools import lru_cache
from pathlib import Path
from typing import Any

from simulator.faults._catalogue import discover
from simulator.quantities.entered import BadEntry
from simulator.records.sealed_faults import SealedFaults
from simulator.records.visit_records import RecordsError
from simulator.serve.paths import RECORDS_FILE, data_directory
from simulator.serve.stand.setting import Setting

LONGEST_CODE = 12  # characters
UNKNOWN = "No fault is kept here for that link; ask whoever sent it for a new one."
NOTHING = "Choose the fault first that the link is to hold."


@lru_cache(maxsize=4)
def _at(path: Path) -> SealedFaults:
    return SealedFaults(path)


def _kept() -> SealedFaults:
    return _at(data_directory() / RECORDS_FILE)


def seal(setting: Setting) -> str:
    """Keep the faults of a setting.

    Parameters
    ----------
    setting : Setting
        Checked.

    Returns
    -------
    str
        The code that a link carries in their place.

    Raises
    ------
    BadEntry
        Without a fault, and where the records cannot be written.
    """
    if not setting.faults:
        raise BadEntry(NOTHING)
    try:
        return _kept().seal(setting.faults)
    except RecordsError as problem:
        raise BadEntry(str(problem)) from None


def faults_behind(code: Any) -> list[dict[str, str]]:
    """Faults behind a code, as if they had been typed.

    Parameters
    ----------
    code : object
        As a link or a page sent it.

    Returns
    -------
    list
        Name and severity of each; shares in percent.

    Raises
    ------
    BadEntry
        Where nothing is kept under it.
    """
    if not isinstance(code, str) or not 0 < len(code) <= LONGEST_CODE:
        raise BadEntry(UNKNOWN)
    try:
        found = _kept().opened(code.upper())
    except RecordsError as problem:
        raise BadEntry(str(problem)) from None
    if found is None or not set(found) <= set(discover()):
        raise BadEntry(UNKNOWN)
    return [_typed(name, amount) for name, amount in found.items()]


def _typed(name: str, amount: float) -> dict[str, str]:
    scale = 100.0 if discover()[name].unit == "-" else 1.0
    return {"name": name, "severity": f"{amount * scale:.7g}"}
