"""The reading sheet: readings as seen, values worked out, pairs before and after."""

from collections.abc import Sequence
from typing import Any

from simulator.calls.events import Measured
from simulator.calls.site import Site
from simulator.calls.visit import Visit
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.worked_out import WorkedOut, work_out
from simulator.quantities.shown import show

LONG = 60.0  # after this the time since a change is no longer told, in minutes


def before_repair(visit: Visit) -> tuple[Measured, ...]:
    """Readings taken before anything was repaired.

    Parameters
    ----------
    visit : Visit

    Returns
    -------
    tuple
        Oldest first; all of them when nothing was.
    """
    first = visit.repairs[0].seq if visit.repairs else visit.next_seq
    return tuple(event for event in visit.readings if event.seq < first)


def after_repair(visit: Visit) -> tuple[Measured, ...]:
    """Readings taken after the last repair.

    Parameters
    ----------
    visit : Visit

    Returns
    -------
    tuple
        Oldest first; none when nothing was repaired.
    """
    if not visit.repairs:
        return ()
    return tuple(event for event in visit.readings if event.seq > visit.repairs[-1].seq)


def value_shown(event: Measured, system: str) -> tuple[str | None, str | None]:
    """A reading's number and unit as printed.

    Parameters
    ----------
    event : Measured
    system : str
        ``us`` or ``si``.

    Returns
    -------
    tuple
        Two texts, or two nothings where the reading is words.
    """
    reading = event.reading
    if reading.value is None:
        return None, None
    # Digits of the tool's own scale; the other system has its usual number of them.
    printed = show(
        reading.value, reading.kind, system, reading.decimals if system == "us" else None
    )
    return printed.text, printed.unit


def sheet_rows(visit: Visit, system: str) -> list[dict[str, Any]]:
    """All readings.

    Parameters
    ----------
    visit : Visit
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    list
        Plain data, oldest first.
    """
    first = visit.repairs[0].seq if visit.repairs else visit.next_seq
    return [_row(event, system, event.seq > first) for event in visit.readings]


def _row(event: Measured, system: str, is_after: bool) -> dict[str, Any]:
    item = MEASUREMENTS[event.reading.measurement]
    ways = {way.id: way.name for way in item.techniques}
    text, unit = value_shown(event, system)
    return {
        "seq": event.seq,
        "minute": round(event.minute),
        "place": event.place,
        "name": item.name,
        "tool": item.tool,
        "technique": ways.get(event.reading.technique, "") if len(ways) > 1 else "",
        "shown": text,
        "unit": unit,
        "words": event.reading.words,
        "conditions": conditions_text(event),
        "group": item.group,
        "after_repair": is_after,
    }


def conditions_text(event: Measured) -> str:
    """How the system stood when a reading was taken.

    Parameters
    ----------
    event : Measured

    Returns
    -------
    str
    """
    state = "running" if event.is_running else "off"
    if event.settled > LONG:
        return f"{state}, unchanged for over an hour"
    return f"{state}, {event.settled:.0f} min after the last change"


def _worked(events: Sequence[Measured], site: Site) -> list[WorkedOut]:
    unit = site.healthy().unit
    # Pressures at rest and temperatures of a running unit belong to no common state.
    numbered = [(event.seq, event.reading) for event in events if event.is_running]
    return work_out(numbered, site.call.metering, unit.refrigerant)


def worked_out_rows(visit: Visit, site: Site, system: str) -> list[dict[str, Any]]:
    """What the readings allow to be worked out, before and after repair apart.

    Parameters
    ----------
    visit : Visit
    site : Site
        Gives refrigerant and metering device, as on the plate.
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    list
        Plain data.
    """
    rows = []
    for events, is_after in ((before_repair(visit), False), (after_repair(visit), True)):
        for value in _worked(events, site):
            printed = show(value.value, value.kind, system)
            rows.append(
                {
                    "name": value.name,
                    "shown": printed.text,
                    "unit": printed.unit,
                    "formula": f"{value.formula}. {value.note}" if value.note else value.formula,
                    "from": list(value.from_seqs),
                    "after_repair": is_after,
                }
            )
    return rows


def pairs(visit: Visit, site: Site, system: str) -> list[dict[str, Any]]:
    """The same measurement before the first repair and after the last.

    Parameters
    ----------
    visit : Visit
    site : Site
        For what is worked out.
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    list
        Plain data; none before the first repair.
    """
    if not visit.repairs:
        return []
    earlier, later = before_repair(visit), after_repair(visit)
    after = {event.reading.measurement: event for event in later}
    found = []
    for name, event in {event.reading.measurement: event for event in earlier}.items():
        text, unit = value_shown(event, system)
        if text is None:
            continue
        second = after.get(name)
        found.append(
            {
                "name": MEASUREMENTS[name].name,
                "unit": unit,
                "before": {"shown": text, "minute": round(event.minute)},
                "after": None
                if second is None
                else {
                    "shown": value_shown(second, system)[0],
                    "minute": round(second.minute),
                },
            }
        )
    return found + _worked_pairs(_worked(earlier, site), _worked(later, site), visit, system)


def _worked_pairs(
    earlier: Sequence[WorkedOut], later: Sequence[WorkedOut], visit: Visit, system: str
) -> list[dict[str, Any]]:
    """Worked-out values stand as pairs only where both sides can be worked out."""
    after = {value.id: value for value in later}

    def side(value: WorkedOut) -> dict[str, Any]:
        minute = max(visit.events[seq].minute for seq in value.from_seqs)
        return {"shown": show(value.value, value.kind, system).text, "minute": round(minute)}

    return [
        {
            "name": value.name,
            "unit": show(value.value, value.kind, system).unit,
            "before": side(value),
            "after": side(after[value.id]),
        }
        for value in earlier
        if value.id in after
    ]
