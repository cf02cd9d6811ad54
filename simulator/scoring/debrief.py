"""The debrief: a story from top to bottom, its numbers computed by the plant."""

from typing import Any

from simulator.calls.events import (
    Closed,
    Declared,
    Event,
    Marked,
    Measured,
    Moved,
    Opened,
    Prepared,
    Repaired,
    Started,
    Stopped,
    Waited,
)
from simulator.calls.sealed import Key
from simulator.calls.sheet import pairs
from simulator.calls.site import Site, acts_of
from simulator.calls.visit import Visit
from simulator.diagnosis.causes import name_of
from simulator.diagnosis.evidence import weights
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.places import PLACES
from simulator.instruments.steps import STEPS
from simulator.quantities.shown import show
from simulator.repairs._catalogue import discover
from simulator.scoring.reasoning import weakness
from simulator.scoring.scorecard import Scorecard, score
from simulator.scoring.three_states import before_after, bill


def debrief(visit: Visit, site: Site, system: str) -> dict[str, Any]:
    """Everything the debrief tells.

    Parameters
    ----------
    visit : Visit
        Closed.
    site : Site
        With the key.
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    dict
        Plain data, words before numbers.

    Raises
    ------
    ValueError
        If the visit is still open: the key stays sealed.
    """
    if not visit.is_closed:
        raise ValueError("a visit is debriefed after it is closed")
    key = site.key.opened()
    card = score(visit.events, key)
    return {
        "what_was_true": key.story,
        "what_you_found": what_you_found(visit),
        "turning_point": turning_point(visit, key),
        "harm": list(card.harm),
        "invalid_charge_tests": list(card.invalid),
        "timeline": [_step(visit, event, system) for event in visit.events if _tells(event)],
        "pairs": pairs(visit, site, system),
        "before_after": before_after(site, acts_of(visit), system),
        "bill": bill(site, acts_of(visit), system),
        **points(card),
    }


def points(card: Scorecard) -> dict[str, Any]:
    """The scorecard as plain data.

    Parameters
    ----------
    card : Scorecard

    Returns
    -------
    dict
        ``parts``, ``total`` and ``of``.
    """
    return {
        "parts": [
            {
                "name": item.name,
                "points": item.points,
                "of": item.of,
                "because": [{"text": why.text, "seq": why.seq} for why in item.because],
            }
            for item in card.parts
        ],
        "total": round(card.total),
        "of": 100,
    }


def what_you_found(visit: Visit) -> str:
    """The finding in one sentence.

    Parameters
    ----------
    visit : Visit
        Closed.

    Returns
    -------
    str
    """
    if visit.finding is None:
        return "No finding was stated."
    names = "; ".join(name_of(code) for code in visit.finding.causes)
    count = len(visit.finding.cited)
    rests = "no reading" if not count else "one reading" if count == 1 else f"{count} readings"
    return f"{names}. It rests on {rests}, stated at minute {visit.finding.minute:.0f}."


def turning_point(visit: Visit, key: Key) -> str:
    """The one act that told most, or would have.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        What was true.

    Returns
    -------
    str
    """
    if not key.causes:
        return ""
    ranked = sorted(
        (
            (weight, cause, name)
            for cause in key.causes
            for name, weight in weights()[cause].items()
        ),
        reverse=True,
    )
    first = visit.repairs[0].seq if visit.repairs else float("inf")
    taken = {e.reading.measurement: e for e in reversed(visit.readings) if e.seq < first}
    for weight, _, name in ranked:
        event = taken.get(name)
        if event is not None and weight >= 0.3:
            shown = f': "{event.reading.words}"' if event.reading.words else "."
            return (
                f"At minute {event.minute:.0f}: {MEASUREMENTS[name].name.lower()}{shown} "
                "Of all you took before the first repair, this told most."
            )
    _, _, name = ranked[0]
    item = MEASUREMENTS[name]
    return (
        f"It was not taken: {item.name.lower()}, {item.minutes:g} min, "
        f"{PLACES[item.place].name.lower()}. It would have told most."
    )


def _tells(event: Event) -> bool:
    return not isinstance(event, Marked)


def _step(visit: Visit, event: Event, system: str) -> dict[str, Any]:
    note = None
    if isinstance(event, Measured):
        note = weakness(visit, event) or (" ".join(event.problems) or None)
    return {"seq": event.seq, "minute": event.minute, "text": told(event, system), "note": note}


def told(event: Event, system: str) -> str:
    """One event in words.

    Parameters
    ----------
    event : Event
        What happened.
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
            return f"To: {PLACES[event.place].name.lower()}."
        case Prepared():
            return f"{STEPS[event.step].name}."
        case Repaired():
            amount = "" if event.amount is None else f", {show(event.amount, 'small_mass', system)}"
            return f"{discover()[event.repair].title}{amount}."
        case Declared():
            return f"Finding: {'; '.join(name_of(code) for code in event.causes)}."
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
        case Closed():
            return "Left the site."
        case _:
            return "Wrote to the customer."
