"""Places of a site as the screen shows them: steps and tests, blocked or open."""

from collections import Counter
from typing import Any

from simulator.calls.decide import place_name
from simulator.calls.site import Site
from simulator.calls.visit import Visit
from simulator.instruments.measurement import Measurement
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.places import PLACES, SPACES, Place
from simulator.instruments.steps import STEPS, Step


def place_rows(visit: Visit, site: Site) -> list[dict[str, Any]]:
    """All places with what can be done there.

    Parameters
    ----------
    visit : Visit
        As it stands.
    site : Site
        Gives the names.

    Returns
    -------
    list
        Plain data, the same rows for every call.
    """
    taken = Counter(event.reading.measurement for event in visit.readings)
    return [
        {
            "id": place.id,
            "name": place_name(site, place.id),
            "short": _short(place, site),
            "caution": place.caution,
            "steps": [_step(step, visit) for step in STEPS.values() if step.place == place.id],
            "tests": [
                _test(item, visit, site, taken[item.id])
                for item in MEASUREMENTS.values()
                if item.place == place.id
            ],
        }
        for place in PLACES.values()
    ]


def _short(place: Place, site: Site) -> str:
    kind = site.healthy().supply_zone.kind
    return SPACES.get(kind, place.short) if place.id == "zone" else place.short


def _step(step: Step, visit: Visit) -> dict[str, Any]:
    return {
        "id": step.id,
        "name": step.name,
        "minutes": step.minutes,
        "done": bool(visit.prepared & {step.id, step.stands_for}),
        "caution": step.caution,
    }


def _first(item: Measurement, visit: Visit, site: Site) -> str | None:
    """What must be done before, and where if that is another place."""
    step = next((STEPS[need] for need in item.needs if need not in visit.prepared), None)
    if step is None:
        return None
    if step.place == item.place:
        return f"First: {step.name}."
    return f"First, at {_short(PLACES[step.place], site)}: {step.name}."


def _test(item: Measurement, visit: Visit, site: Site, times: int) -> dict[str, Any]:
    return {
        "id": item.id,
        "name": item.name,
        "tool": item.tool,
        "minutes": item.minutes,
        "way": item.way,
        "blocked": _first(item, visit, site),
        "group": item.group,
        "techniques": [
            {"id": way.id, "name": way.name, "minutes": item.minutes_by(way.id)}
            for way in item.techniques
        ],
        "caution": item.caution,
        "times_taken": times,
    }
