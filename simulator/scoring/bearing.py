"""What each cited reading could and could not show."""

from typing import Any

from simulator.calls.visit import Visit
from simulator.diagnosis.causes import name_of
from simulator.diagnosis.evidence import evidence
from simulator.instruments.measurements import MEASUREMENTS
from simulator.scoring.reasoning import cited

MOST = 4  # causes named for one direction
WAYS = {
    "up": "when high",
    "down": "when low",
    "flat": "when as it should be",
    "seen": "by what is seen there",
    "moved": "when off either way",
}


def bearing(visit: Visit) -> list[dict[str, Any]]:
    """Each cited reading, the causes it bears on, and those it cannot tell apart.

    Parameters
    ----------
    visit : Visit
        Closed.

    Returns
    -------
    list
        ``text`` and ``seq``, in the order they were taken.
    """
    return [
        {"text": could_show(event.reading.measurement), "seq": event.seq} for event in cited(visit)
    ]


def could_show(measurement: str) -> str:
    """What one measurement bears on.

    Parameters
    ----------
    measurement : str
        Its id.

    Returns
    -------
    str
        One or two sentences.
    """
    ways: dict[str, list[tuple[float, str]]] = {}
    for cause, rows in evidence().items():
        # A reading that others are judged against claims nothing itself.
        goes, weight = rows.get(measurement, ("beside", 0.0))
        if goes != "beside":
            ways.setdefault(goes, []).append((-weight, name_of(cause)))
    name = MEASUREMENTS[measurement].name
    if not ways:
        return f"{name}: it bears on no single cause; others are judged against it."
    parts = [f"{WAYS.get(goes, goes)}: {_listed(found)}" for goes, found in sorted(ways.items())]
    said = f"{name}. Causes it could point to, {'; '.join(parts)}."
    if any(len(found) > 1 for found in ways.values()):
        return f"{said} By itself it could not tell you which of those listed together it is."
    return (
        f"{said} By itself it could not tell you how large the fault is, nor rule out a second one."
    )


def _listed(found: list[tuple[float, str]]) -> str:
    names = [name for _, name in sorted(found)]
    more = len(names) - MOST
    kept = [name[:1].lower() + name[1:] for name in names[:MOST]]
    return ", ".join([*kept, f"{more} more"] if more > 0 else kept)
