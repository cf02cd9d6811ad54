"""The one act that spoke most directly for what was true, or that would have."""

from collections.abc import Collection

from simulator.calls.site import Site
from simulator.calls.visit import Visit
from simulator.diagnosis.evidence import weights
from simulator.instruments.measurements import MEASUREMENTS
from simulator.scoring.telling import place_said

PLAINLY = 0.3  # weight from which a reading speaks for a cause by itself [-]


def turning_point(visit: Visit, causes: Collection[str], mends: Collection[str], site: Site) -> str:
    """The one act that told most, or would have.

    Parameters
    ----------
    visit : Visit
        Closed.
    causes, mends : collection
        What was true, and the repairs that mend any of it.
    site : Site
        Names the places of this house.

    Returns
    -------
    str
    """
    of_causes = ((cause, weights()[cause]) for cause in causes)
    worths = ((worth, cause, name) for cause, all_of in of_causes for name, worth in all_of.items())
    ranked = sorted(worths, reverse=True)
    first = next((e.seq for e in visit.repairs if e.repair in mends), float("inf"))
    taken = {e.reading.measurement: e for e in reversed(visit.readings) if e.seq < first}
    for weight, _, name in ranked:
        event = taken.get(name)
        if event is not None and weight >= PLAINLY:
            shown = f': "{event.reading.words}"' if event.reading.words else "."
            return (
                f"At minute {event.minute:.0f}: {MEASUREMENTS[name].said}{shown} "
                "Of all you took before anything was mended, this speaks most directly for what "
                "was true."
            )
    missed = next((name for _, _, name in ranked if name not in taken), None)
    return "" if missed is None else _missed(visit, site, missed)


def _missed(visit: Visit, site: Site, name: str) -> str:
    """What would have told, taken too late or never."""
    item = MEASUREMENTS[name]
    late = next((e for e in visit.readings if e.reading.measurement == name), None)
    if late is not None:
        return (
            f"It was taken only after the repair, at minute {late.minute:.0f}: {item.said}. "
            "Before it, it would have spoken most directly for what was true."
        )
    return (
        f"It was not taken: {item.said}, {item.minutes:g} min, "
        f"{place_said(site, item.place)}. It would have spoken most directly for what was true."
    )
