"""What if this had been measured at that minute: the plant as it stood then, measured again.

A replay is worked out from the events up to the chosen minute, so repairs made later are undone
in it. It is told and forgotten: no event comes of it.
"""

from dataclasses import replace
from typing import Any

from simulator.calls.decide import place_name
from simulator.calls.events import Measured, Prepared
from simulator.calls.sheet import LONG, value_shown
from simulator.calls.site import Site
from simulator.calls.visit import Visit, advanced, fold
from simulator.diagnosis.belief import Belief, history
from simulator.instruments.measurement import Measurement
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.places import PLACES
from simulator.instruments.steps import STEPS
from simulator.quantities.entered import BadEntry, entered
from simulator.scoring.carried import SUSPICION, share_there
from simulator.scoring.odds import MOVED, gained, likeliest
from simulator.scoring.telling import told
from simulator.scoring.truth import shares


class CannotReplay(ValueError):
    """Something that cannot be replayed; its text is one sentence for the trainee."""


def choices(site: Site) -> list[dict[str, Any]]:
    """What can be measured in a replay.

    Parameters
    ----------
    site : Site
        Names its places.

    Returns
    -------
    list
        ``place`` and its ``tests``; the same for every call.
    """
    return [
        {
            "place": place_name(site, place),
            "tests": [
                {"id": item.id, "name": item.name}
                for item in MEASUREMENTS.values()
                if item.place == place
            ],
        }
        for place in PLACES
        if any(item.place == place for item in MEASUREMENTS.values())
    ]


def asked(message: dict[str, Any], visit: Visit) -> tuple[float, str]:
    """What a message asks to be measured, and when.

    Parameters
    ----------
    message : dict
        From the browser; anything at all.
    visit : Visit
        Closed.

    Returns
    -------
    tuple
        Minute after arrival, in minutes, and measurement.

    Raises
    ------
    CannotReplay
        If there is no such minute or measurement.
    """
    typed, test = message.get("minute"), message.get("test")
    is_number = isinstance(typed, str | int | float) and not isinstance(typed, bool)
    try:
        seconds = entered(
            str(typed) if is_number else "",
            "duration",
            name="minute of the visit",
            low=0.0,
            high=60.0 * visit.minute,
        )
    except BadEntry as problem:
        raise CannotReplay(str(problem)) from None
    if not isinstance(test, str) or test not in MEASUREMENTS:
        raise CannotReplay("Choose what you would have measured.")
    return seconds / 60.0, test


def replayed(visit: Visit, site: Site, what: tuple[float, str], system: str) -> dict[str, Any]:
    """A reading that nobody took.

    Parameters
    ----------
    visit : Visit
        Closed; left as it is.
    site : Site
        With the key.
    what : tuple
        Minute after arrival, in minutes, and measurement.
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    dict
        Plain data: ``name``, ``shown`` or ``words``, ``stood``, ``moved`` and so on.
    """
    minute, measurement = what
    item = MEASUREMENTS[measurement]
    then = as_it_stood(visit, minute)
    ready = _made_ready(then, item)
    event = taken_in(ready, site, item)
    text, unit = value_shown(event, system)
    last = then.events[-1]
    assumed = [STEPS[step].name for step in item.needs if step not in then.prepared]
    return {
        "name": item.name,
        "minute": round(minute),
        "shown": text,
        "unit": unit,
        "words": event.reading.words,
        "after": f"Until then, last: {told(last, site, system)}",
        "stood": _state(event),
        "assumed": f"Taken as done first: {'; '.join(assumed)}." if assumed else "",
        "cost": f"It would have taken {item.minutes:g} min at the place.",
        "problems": list(event.problems),
        **_worth(ready, advanced(ready, event), site),
    }


def as_it_stood(visit: Visit, minute: float) -> Visit:
    """A visit as it stood at one of its minutes.

    Parameters
    ----------
    visit : Visit
        Left as it is.
    minute : float
        After arrival, in minutes.

    Returns
    -------
    Visit
        With what had been done by then; time may have passed since its last event.
    """
    then = fold(event for event in visit.events if event.minute <= minute)
    return replace(then, minute=max(minute, then.minute))


def _made_ready(then: Visit, item: Measurement) -> Visit:
    """The same with everything done that the measurement needs, as the usual way has it."""
    for step in item.needs:
        if step not in then.prepared:
            then = advanced(then, Prepared(seq=then.next_seq, minute=then.minute, step=step))
    return then


def taken_in(then: Visit, site: Site, item: Measurement) -> Measured:
    """A measurement taken with care, by the plant as it stands.

    Parameters
    ----------
    then : Visit
        As it stands.
    site : Site
        With the key.
    item : Measurement
        What.

    Returns
    -------
    Measured
    """
    return Measured(
        seq=then.next_seq,
        minute=then.minute,
        reading=site.reading(then, item.id, item.techniques[0].id, then.minute),
        place=item.place,
        is_running=then.is_running,
        settled=then.minute - then.changed_at,
        problems=site.charge_problems(then, item.id, then.minute),
    )


def _state(event: Measured) -> str:
    since = f"{event.settled:.0f} min after the last change"
    if event.settled > LONG:
        return "The system was running." if event.is_running else "The system was off."
    if event.is_running:
        return f"The system was running, {since}."
    return f"The system was off, {since}."


def _worth(before: Visit, after: Visit, site: Site) -> dict[str, Any]:
    """What the reading would have done to the odds of what was true."""
    true = frozenset(shares(site.key.opened()))
    if before.repairs:
        return {"moved": "What it would have told is worked out up to the first repair only."}
    earlier, later = history(before, site.call)[-1], history(after, site.call)[-1]
    if true not in later.sets:
        return {"moved": "For so many causes together no odds are worked out."}
    return {
        "moved": _moved(earlier, later, true),
        "before": round(share_there(true, earlier), 3),
        "after_it": round(share_there(true, later), 3),
        "likeliest_before": likeliest(earlier),
        "likeliest_after": likeliest(later),
    }


def _moved(earlier: Belief, later: Belief, true: frozenset[str]) -> str:
    gain = gained(earlier, later, true)
    if gain >= SUSPICION:
        return "It would have spoken clearly for what was true."
    if gain <= -SUSPICION:
        return "It would have spoken against what was true; another reading had to put that right."
    if abs(gain) < MOVED:
        return "After what you knew by then it would hardly have moved the odds."
    if gain > 0.0:
        return "It would have spoken for what was true, though not loudly."
    return "It would have leant a little away from what was true."
