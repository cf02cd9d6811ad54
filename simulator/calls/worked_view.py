"""Worked-out values as the screen shows them: what they rest on, and how far apart it was."""

from collections.abc import Sequence
from typing import Any

from simulator.calls.events import Measured
from simulator.calls.sheet import after_repair, before_repair, steadiness, worked
from simulator.calls.site import Site
from simulator.calls.visit import Visit
from simulator.instruments.measurements import MEASUREMENTS
from simulator.plant.timeline import SETTLED_AFTER
from simulator.quantities.shown import show

# Weather and load drift; readings further apart than a settling time show two states.
FAR_APART = SETTLED_AFTER / 60.0  # in minutes


def worked_out_rows(visit: Visit, site: Site, system: str) -> list[dict[str, Any]]:
    """What the readings allow to be worked out, before and after repair apart.

    Parameters
    ----------
    visit : Visit
    site : Site
        Gives refrigerant and metering device, as on the nameplate.
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    list
        Plain data.
    """
    readings = {event.seq: event for event in visit.readings}
    rows = []
    for events, is_after in ((before_repair(visit), False), (after_repair(visit), True)):
        for value in worked(events, site):
            printed = show(value.value, value.kind, system)
            used = [readings[seq] for seq in value.from_seqs]
            rows.append(
                {
                    "name": value.name,
                    "shown": printed.text,
                    "unit": printed.unit,
                    "formula": f"{value.formula}. {value.note}" if value.note else value.formula,
                    "from": list(value.from_seqs),
                    "minutes": [round(event.minute) for event in used],
                    "rests_on": [
                        {
                            "name": MEASUREMENTS[e.reading.measurement].name,
                            "minute": round(e.minute),
                        }
                        for e in used
                    ],
                    "doubt": doubt(used),
                    "after_repair": is_after,
                }
            )
    return rows


def doubt(used: Sequence[Measured]) -> str:
    """Why readings may not belong to one state of the system.

    Parameters
    ----------
    used : sequence
        What one value rests on.

    Returns
    -------
    str
        Empty where nothing speaks against it.

    References
    ----------
    .. [1] California Title 24 RA3.2: readings of a charge test are taken together, 15 minutes
       after a start or a change.
    """
    minutes = [event.minute for event in used]
    apart = max(minutes) - min(minutes)
    shaky = [
        MEASUREMENTS[event.reading.measurement].said
        for event in used
        if steadiness(event) != "steady"
    ]
    said = []
    if apart > FAR_APART or shaky:
        said.append(f"taken {apart:.0f} min apart")
    if shaky:
        said.append(f"not steady: {', '.join(shaky)}")
    return "; ".join(said)
