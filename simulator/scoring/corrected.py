"""Pairs of a debrief in weather that was not alike: what the unit as found would have shown."""

from typing import Any

from simulator.calls.events import Measured
from simulator.calls.sheet import pairs, sides
from simulator.calls.site import Site
from simulator.calls.visit import Visit
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.tools import TOOLS
from simulator.quantities.shown import show
from simulator.scoring.grounds import ALIKE, Grounds
from simulator.scoring.retest import hangs_on_weather


def told_pairs(visit: Visit, site: Site, system: str, known: Grounds) -> list[dict[str, Any]]:
    """Pairs as on the sheet, with what the weather did between the two.

    Parameters
    ----------
    visit : Visit
        Closed.
    site : Site
        With the key.
    system : str
        Units, ``us`` or ``si``.
    known : Grounds
        Gives the weather.

    Returns
    -------
    list
        Plain data; the ``note`` says more where outdoor air had moved too far.
    """
    earlier, later = sides(visit)
    said = {
        MEASUREMENTS[name].name: _said(event, later[name], system, known)
        for name, event in earlier.items()
        if name in later
    }
    return [
        {**row, "note": _note(row, said.get(row["name"], ""))} for row in pairs(visit, site, system)
    ]


def _note(row: dict[str, Any], weather: str) -> str:
    # What was not taken again is no pair that could prove or fail to.
    return " ".join(said for said in (row["note"], weather) if said) if row["after"] else ""


def _said(before: Measured, after: Measured, system: str, known: Grounds) -> str:
    outdoor = known.outdoor or {}
    moved = outdoor[after.seq] - outdoor[before.seq]
    if not hangs_on_weather(before) or abs(moved) <= ALIKE or after.seq not in known.untouched:
        return ""
    item = MEASUREMENTS[after.reading.measurement]
    decimals = TOOLS[item.tool_id].decimals if system == "us" else None
    alone = show(known.untouched[after.seq], item.kind, system, decimals)
    apart = show(abs(moved), "temperature_difference", system)
    if moved > 0.0:
        told = f"Outdoors it was {apart} warmer by then."
    else:
        told = f"Outdoors it was {apart} colder by then."
    return f"{told} Left as found, it would have read about {alone}."
