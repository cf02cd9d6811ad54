"""What is still missing when a visit is about to be closed; a reminder, not a verdict."""

from collections.abc import Mapping, Sequence
from typing import Any

from simulator.calls.events import Opened
from simulator.calls.repair_terms import PLACES_OF_REPAIRS
from simulator.calls.traces import FILTER_OUT, JUMPER_ON
from simulator.calls.visit import Visit

PANELS = {
    "air_handler": "air handler",
    "outdoor_unit": "outdoor unit",
    "electrical_panel": "electrical panel",
}


def leaving(visit: Visit, pair_rows: Sequence[Mapping[str, Any]]) -> dict[str, list[str]]:
    """What one should know before leaving.

    Parameters
    ----------
    visit : Visit
        As it stands.
    pair_rows : sequence
        Readings before and after, as the sheet shows them.

    Returns
    -------
    dict
        ``missing`` and ``see_to``, a sentence each; both empty once the visit is closed.
    """
    if visit.is_closed:
        return {"missing": [], "see_to": []}
    return {"missing": _missing(visit, pair_rows), "see_to": _see_to(visit)}


def _missing(visit: Visit, pair_rows: Sequence[Mapping[str, Any]]) -> list[str]:
    said = []
    if visit.finding is None:
        said.append("No finding is stated; no fault found is one too.")
    if visit.repairs and not any(row["after"] for row in pair_rows):
        said.append("Nothing that was measured before the repair has been measured again since.")
    elif visit.repairs and not any(row["is_proof"] for row in pair_rows):
        said.append("No reading stands before and after the repair, steady both times.")
    if visit.write_up is None:
        said.append("There is no write-up for the customer.")
    if not visit.is_running:
        found_off = any(isinstance(e, Opened) and not e.is_running for e in visit.events)
        as_found = ", as you found it" if found_off else ""
        said.append(f"The system is off{as_found}.")
    return said


def _see_to(visit: Visit) -> list[str]:
    said = []
    if "drill_test_holes" in visit.prepared:
        said.append("The four test holes: a plug in each.")
    if visit.prepared & {"drill_return_trunk", "drill_supply_trunk"}:
        said.append("The holes in the trunks: a plug in each.")
    if FILTER_OUT in visit.left:
        said.append("The filter: back in its slot.")
    if JUMPER_ON in visit.left:
        said.append("The jumper: off the defrost board's test pins.")
    if "connect_gauges" in visit.prepared:
        said.append("Pressure probes off, caps on the service ports.")
    been = {event.place for event in visit.readings}
    been |= {PLACES_OF_REPAIRS.get(event.repair, "") for event in visit.repairs}
    opened = [name for place, name in PANELS.items() if place in been]
    if opened:
        said.append(f"Panels and covers back on: {', '.join(opened)}.")
    return said
