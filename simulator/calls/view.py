"""What the screen may know of a visit: everything seen, nothing of the cause."""

from collections.abc import Sequence
from typing import Any

from simulator.calls import probes
from simulator.calls.choice import Choice
from simulator.calls.decide import place_name
from simulator.calls.events import Prepared, Repaired
from simulator.calls.house_drawing import house_drawing
from simulator.calls.leaving import leaving
from simulator.calls.places_view import place_rows
from simulator.calls.repair_terms import (
    PLACES_OF_REPAIRS,
    hindrance,
    lock_out_of,
    power_needed,
    walk_to,
)
from simulator.calls.sheet import pairs, sheet_rows, time_of_day
from simulator.calls.site import Site
from simulator.calls.visit import Visit
from simulator.calls.worked_view import worked_out_rows
from simulator.faults import _catalogue as faults
from simulator.faults._sizes import bounds_shown
from simulator.quantities.shown import show, to_display
from simulator.repairs import _catalogue as repairs

SMALL = "small_mass"
LONG_VISIT = 240.0  # when the office asks after its technician, in minutes
LONG_VISIT_TEXT = (
    'The dispatcher texts: "Over four hours at this address. All right out there? I have told the '
    'next customer you will be late."'
)
# What the technician may conclude from the act itself: nothing.
OUTCOME = "Done. Only a test can tell what it changed."


def view(
    visit: Visit, *, number: str, site: Site, causes: Sequence[Choice], system: str
) -> dict[str, Any]:
    """Everything the call page shows.

    Parameters
    ----------
    visit : Visit
        As it stands.
    number : str
        Of the visit, for people.
    site : Site
        Gives names and the work order.
    causes : sequence
        The whole list.
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    dict
        Plain data.
    """
    pair_rows = pairs(visit, site, system)
    return {
        "visit": {
            "number": number,
            "phase": "closed" if visit.is_closed else "open",
            "minutes": round(visit.minute),
            "clock": time_of_day(site, visit.minute),
            "remark": LONG_VISIT_TEXT if visit.minute > LONG_VISIT else None,
            "units": system,
        },
        "work_order": work_order(site),
        "system": {**_system(visit, site), "mode": site.call.mode},
        "here": visit.place,
        "drawing": house_drawing(site),
        "places": place_rows(visit, site),
        "found": {e.step: e.found for e in visit.events if isinstance(e, Prepared) and e.found},
        "sheet": sheet_rows(visit, site, system),
        "worked_out": worked_out_rows(visit, site, system),
        "pairs": pair_rows,
        "leaving": leaving(visit, pair_rows),
        "causes": [
            {
                "code": cause.code,
                "name": cause.name,
                "family": cause.family,
                "mark": visit.marks.get(cause.code, "open"),
                **_sized(cause.code, system),
            }
            for cause in causes
        ],
        "finding": _finding(visit),
        "asks_odds": probes.is_due(visit),
        "repairs": [_offered(code, visit, site, system) for code in repairs.discover()],
        "repairs_done": [_done(event, system) for event in visit.repairs],
        "write_up": visit.write_up,
        "debrief_ready": visit.is_closed,
    }


def work_order(site: Site) -> dict[str, Any]:
    """What the office sent along.

    Parameters
    ----------
    site : Site

    Returns
    -------
    dict
        Plain data.
    """
    call = site.call
    return {
        "title": call.title,
        "customer": call.customer,
        "address": call.address,
        "complaint": call.complaint,
        "history": list(call.history),
        "equipment": list(call.equipment),
        "weather": call.weather_text,
    }


def _system(visit: Visit, site: Site) -> dict[str, Any]:
    minutes = round(visit.minute - visit.switched_at, 1)
    if not visit.is_running:
        since = "since before you came" if visit.switched_at < 0 else f"for {minutes:.0f} min"
        return {"state": "off", "for_minutes": minutes, "text": f"Off {since}."}
    state = site.moment(visit, visit.minute).now.state
    if state == "no_solution":
        text = (
            "Called on, but no settled state of this unit could be worked out: undo what was "
            "last changed at it, or wait for milder weather."
        )
        return {"state": "off", "for_minutes": minutes, "text": text}
    if state != "running":
        # What can be heard, not why: a switch, a float, an overload or a detector all do this.
        text = "Called on, but the compressor stands."
        return {"state": "off", "for_minutes": minutes, "text": text}
    since = "since before you came" if visit.switched_at < 0 else f"for {minutes:.0f} min"
    return {"state": "running", "for_minutes": minutes, "text": f"Running {since}."}


def _finding(visit: Visit) -> dict[str, Any] | None:
    finding = visit.finding
    if finding is None:
        return None
    return {
        "causes": list(finding.causes),
        "cited": list(finding.cited),
        "sizes": [finding.size_of(code) for code in finding.causes],
        "minute": round(finding.minute),
    }


def _sized(code: str, system: str) -> dict[str, Any]:
    """What its size counts, and where slight, moderate and severe part; the same on every call."""
    kind = faults.discover().get(code)
    if kind is None:
        return {"measure": "", "bounds": []}
    return {"measure": kind.measure, "bounds": bounds_shown(kind, system)}


def amount_kind(code: str) -> str:
    """The kind in which a repair's amount is entered and shown.

    Parameters
    ----------
    code : str
        Of the repair.

    Returns
    -------
    str
        Refrigerant is weighed in ounces or grams.
    """
    kind = repairs.discover()[code].amount_kind
    return SMALL if kind == "mass" else kind


def _offered(code: str, visit: Visit, site: Site, system: str) -> dict[str, Any]:
    place = PLACES_OF_REPAIRS.get(code)
    act = repairs.discover()[code]
    amount = None
    if act.amount_name is not None:
        kind = amount_kind(code)
        amount = {
            "name": act.amount_name,
            "unit": show(act.low, kind, system).unit,
            "low": round(float(to_display(act.low, kind, system)), 1),
            "high": round(float(to_display(act.high, kind, system)), 1),
        }
    return {
        "code": code,
        "name": act.title,
        "minutes": act.minutes,
        "place": None if place is None else place_name(site, place),
        "walk": walk_to(visit, code),
        "power": power_needed(code),
        "blocked": hindrance(visit, code),
        "lock_out": _lock_out(code, visit, site),
        "caution": act.caution,
        "consequence": act.consequence,
        "amount": amount,
    }


def _lock_out(code: str, visit: Visit, site: Site) -> str | None:
    step = lock_out_of(visit, code)
    if step is None:
        return None
    return f"Not locked out yet: {step.name} ({place_name(site, step.place)})."


def _done(event: Repaired, system: str) -> dict[str, Any]:
    amount = None
    if event.amount is not None:
        amount = str(show(event.amount, amount_kind(event.repair), system))
    return {
        "name": repairs.discover()[event.repair].title,
        "minute": round(event.minute),
        "amount": amount,
        "outcome": OUTCOME,
    }
