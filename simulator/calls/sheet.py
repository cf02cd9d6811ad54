"""The reading sheet: readings as seen, values worked out, pairs before and after."""

from collections.abc import Sequence
from typing import Any

from simulator.calls.events import Measured
from simulator.calls.site import Site
from simulator.calls.visit import Visit
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.settling import settles_after
from simulator.instruments.worked_out import WorkedOut, work_out
from simulator.quantities.shown import show

LONG = 60.0  # after this the time since a change is no longer told, in minutes
HOURS = 24  # on the clock


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
    return tuple(e for e in visit.readings if e.seq < first)


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


def sides(visit: Visit) -> tuple[dict[str, Measured], dict[str, Measured]]:
    """What may stand side by side: newest takes before a repair and after the last one.

    Parameters
    ----------
    visit : Visit

    Returns
    -------
    tuple
        By measurement; before the first repair where it was taken then, else before the last.
    """
    last = visit.repairs[-1].seq if visit.repairs else visit.next_seq
    before = {e.reading.measurement: e for e in before_repair(visit)}
    later = {e.reading.measurement: e for e in after_repair(visit)}
    between = {e.reading.measurement: e for e in visit.readings if e.seq < last}
    return before | {name: e for name, e in between.items() if name not in before}, later


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


def time_of_day(site: Site, minute: float) -> str:
    """What a clock on the site shows.

    Parameters
    ----------
    site : Site
        Gives the hour of arrival.
    minute : float
        In minutes after arrival.

    Returns
    -------
    str
        Such as 14:35.
    """
    hours, minutes = divmod(round(60.0 * site.call.arrival_hour) + round(minute), 60)
    return f"{hours % HOURS}:{minutes:02d}"


def steadiness(event: Measured) -> str:
    """Whether what a reading shows had come to rest when it was taken.

    Parameters
    ----------
    event : Measured

    Returns
    -------
    str
        ``steady``, ``not steady`` or ``system off``; never steady while off.
    """
    if not event.is_running:
        return "system off"
    return "steady" if event.settled >= settles_after(event.reading.measurement) else "not steady"


def sheet_rows(visit: Visit, site: Site, system: str) -> list[dict[str, Any]]:
    """All readings.

    Parameters
    ----------
    visit : Visit
    site : Site
        For its clock.
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    list
        Plain data, oldest first.
    """
    first = visit.repairs[0].seq if visit.repairs else visit.next_seq
    return [
        {**_row(event, system, event.seq > first), "clock": time_of_day(site, event.minute)}
        for event in visit.readings
    ]


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
        "steadiness": steadiness(event),
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
        Without a time where nothing had changed for over an hour; the sheet says so once.
    """
    state = "running" if event.is_running else "off"
    if event.settled > LONG:
        return state
    return f"{state}, {event.settled:.0f} min after the last change"


def worked(events: Sequence[Measured], site: Site) -> list[WorkedOut]:
    """What readings allow to be worked out.

    Parameters
    ----------
    events : sequence
        Oldest first; those taken with the system off are left out.
    site : Site
        Gives refrigerant and metering device, as on the nameplate.

    Returns
    -------
    list
    """
    unit = site.healthy().unit
    # Pressures at rest and temperatures of a running unit belong to no common state.
    numbered = [(event.seq, event.reading) for event in events if event.is_running]
    return work_out(numbered, site.call.metering, unit.refrigerant)


def pairs(visit: Visit, site: Site, system: str) -> list[dict[str, Any]]:
    """The same measurement before a repair and after the last.

    Parameters
    ----------
    visit : Visit
    site : Site
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    list
        Plain data; none before the first repair.
    """
    if not visit.repairs:
        return []
    before, after = sides(visit)
    found = []
    for name, event in before.items():
        text, unit = value_shown(event, system)
        if text is None:
            continue
        second = after.get(name)
        found.append(
            {
                "name": MEASUREMENTS[name].name,
                "unit": unit,
                "before": _side(event, system),
                "after": None if second is None else _side(second, system),
                **_standing([event], [] if second is None else [second]),
            }
        )
    earlier, later = (worked(taken(visit), site) for taken in (before_repair, after_repair))
    return found + _worked_pairs(earlier, later, visit, system)


def _side(event: Measured, system: str) -> dict[str, Any]:
    text, _ = value_shown(event, system)
    return {"shown": text, "minute": round(event.minute), "steadiness": steadiness(event)}


def _standing(before: Sequence[Measured], after: Sequence[Measured]) -> dict[str, Any]:
    """Whether a pair can prove anything: both sides steady and taken the same way."""
    said = []
    for words, side in (("before", before), ("after", after)):
        states = {steadiness(event) for event in side}
        if "system off" in states:
            said.append(f"the one {words} was taken with the system off")
        elif "not steady" in states:
            needed = max(
                settles_after(e.reading.measurement) for e in side if steadiness(e) == "not steady"
            )
            said.append(f"the one {words} was taken less than {needed:.0f} min after a change")
    ways = [
        {(e.reading.measurement, e.reading.technique) for e in side} for side in (before, after)
    ]
    if before and after and ways[0] != ways[1]:
        said.append("they were not taken the same way")
    is_proof = bool(before and after) and not said
    note = f"Not counted as proof: {'; '.join(said)}." if said else ""
    return {"is_proof": is_proof, "note": "Both steady." if is_proof else note}


def _worked_pairs(
    earlier: Sequence[WorkedOut], later: Sequence[WorkedOut], visit: Visit, system: str
) -> list[dict[str, Any]]:
    """Worked-out values stand as pairs only where both sides can be worked out."""
    after = {value.id: value for value in later}
    readings = {event.seq: event for event in visit.readings}

    def of(value: WorkedOut) -> list[Measured]:
        return [readings[seq] for seq in value.from_seqs]

    def side(value: WorkedOut) -> dict[str, Any]:
        minute = max(event.minute for event in of(value))
        return {"shown": show(value.value, value.kind, system).text, "minute": round(minute)}

    return [
        {
            "name": value.name,
            "unit": show(value.value, value.kind, system).unit,
            "before": side(value),
            "after": side(after[value.id]),
            **_standing(of(value), of(after[value.id])),
        }
        for value in earlier
        if value.id in after
    ]
