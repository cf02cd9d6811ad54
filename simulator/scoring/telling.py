"""Events of a visit in words, for the timeline."""

from simulator.calls.decide import place_name
from simulator.calls.events import (
    Closed,
    Declared,
    Event,
    Hinted,
    Marked,
    Measured,
    Moved,
    Opened,
    Prepared,
    Probed,
    Repaired,
    Started,
    Stopped,
    Waited,
)
from simulator.calls.site import Site
from simulator.diagnosis.causes import name_of
from simulator.diagnosis.coached import RUNGS, name_of_target
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.steps import STEPS
from simulator.quantities.shown import show
from simulator.repairs._catalogue import discover


def place_said(site: Site, place: str) -> str:
    """A place as this house calls it, inside a sentence.

    Parameters
    ----------
    site : Site
        Names its places.
    place : str
        Which.

    Returns
    -------
    str
    """
    said = place_name(site, place)
    return said[:1].lower() + said[1:]


def sized(cause: str, finding: Declared) -> str:
    """A stated cause with the size it was given.

    Parameters
    ----------
    cause : str
        Its code.
    finding : Declared
        What was stated.

    Returns
    -------
    str
    """
    name, size = name_of(cause), finding.size_of(cause)
    return f"{name} ({size})" if size else name


def told(event: Event, site: Site, system: str) -> str:
    """One event in words.

    Parameters
    ----------
    event : Event
        What happened.
    site : Site
        Names the places of this house.
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    str
    """
    match event:
        case Measured():
            reading = event.reading
            seen = reading.words or str(show(reading.value or 0.0, reading.kind, system))
            return f"{MEASUREMENTS[reading.measurement].name}: {seen}"
        case Moved():
            return f"To: {place_said(site, event.place)}."
        case Prepared():
            return f"{STEPS[event.step].name}."
        case Repaired():
            amount = "" if event.amount is None else f", {show(event.amount, 'small_mass', system)}"
            return f"{discover()[event.repair].title}{amount}."
        case Declared():
            return f"Finding: {'; '.join(sized(code, event) for code in event.causes)}."
        case _:
            return _told_shortly(event)


def _told_shortly(event: Event) -> str:
    match event:
        case Opened():
            return "Arrived; the system was running." if event.is_running else "Arrived."
        case Started():
            return "Started the system."
        case Stopped():
            return "Switched the system off."
        case Waited():
            return f"Waited {event.minutes:g} min."
        case Hinted():
            about = name_of_target(event.about)
            return f"Asked the coach, hint {event.rung} of {RUNGS}: {about}."
        case Probed():
            return _odds_given(event)
        case Marked():
            return _marked(event)
        case Closed():
            return "Left the site."
        case _:
            return "Wrote to the customer."


def _marked(event: Marked) -> str:
    name = name_of(event.cause)
    if event.mark == "ruled_out":
        return f"Ruled out: {name}."
    return f"Thought likely: {name}." if event.mark == "likely" else f"Left open: {name}."


def _odds_given(event: Probed) -> str:
    if not event.causes:
        return "Asked for the likeliest causes: put aside."
    given = zip(event.causes, event.shares, strict=True)
    said = "; ".join(f"{name_of(cause)}, {100.0 * share:.0f} %" for cause, share in given)
    return f"Thought likeliest: {said}."
