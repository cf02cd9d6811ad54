"""What told most: one definition for a trainee's own debrief and for a class.

Of the first takes before anything was mended, the reading that raised the odds of what was true
most. A class takes the mean over those who took it, so that for one of them another may have told
more; of one visit alone both are the same.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from simulator.calls.events import Measured
from simulator.calls.site import Site
from simulator.calls.visit import Visit
from simulator.diagnosis.evidence import weights
from simulator.diagnosis.hypotheses import hypotheses
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.validity import AIRFLOW_PROOF
from simulator.scoring.carried import SUSPICION, share_there
from simulator.scoring.odds import MOVED, believed, gained
from simulator.scoring.telling import place_said
from simulator.scoring.truth import shares

LONG = 5.0  # an act shorter than this is never the costliest, in minutes


@dataclass(frozen=True, slots=True)
class Gain:
    """A first take and what it did.

    Parameters
    ----------
    event : Measured
        The reading.
    gain : float
        Decimal logarithm of the ratio by which it raised the odds of what was true. [-]
    before, after : float
        How likely what was true was without it and with it, alone or not. [-]
    """

    event: Measured
    gain: float
    before: float
    after: float


def is_told(true: frozenset[str], site: Site) -> bool:
    """Whether odds are worked out for what was true at all.

    Parameters
    ----------
    true : frozenset
        Codes.
    site : Site
        For the public part of its call.

    Returns
    -------
    bool
        False where more causes came together than are thought of.
    """
    listed = hypotheses(site.call.mode, site.call.metering)
    return true in {frozenset(one.named) for one in listed}


def gains(visit: Visit, site: Site, true: frozenset[str]) -> list[Gain]:
    """What the first take of each measurement did to the odds.

    Parameters
    ----------
    visit : Visit
        Closed.
    site : Site
        Of its own version.
    true : frozenset
        Codes of what was true.

    Returns
    -------
    list
        Oldest first; none where no odds are worked out.
    """
    found: dict[str, Gain] = {}
    for one in _every(visit, site, true):
        found.setdefault(one.event.reading.measurement, one)
    return list(found.values())


def _every(visit: Visit, site: Site, true: frozenset[str]) -> list[Gain]:
    """What each take did, repeats with them."""
    beliefs = believed(visit, site)
    if true not in beliefs[0].sets:
        return []
    taken = {event.seq: event for event in visit.readings}
    return [
        Gain(
            event=taken[after.seq],
            gain=gained(before, after, true),
            before=share_there(true, before),
            after=share_there(true, after),
        )
        for before, after in pairwise(beliefs)
        if after.seq in taken
    ]


def most(by_measurement: Mapping[str, float]) -> str | None:
    """The measurement that told most.

    Parameters
    ----------
    by_measurement : mapping
        What each did to the odds, as a decimal logarithm. [-]

    Returns
    -------
    str or None
        Of two that tell alike the quicker one; none where nothing moved them.
    """
    # Names last, so that chance decides nothing.
    ranked = sorted(
        by_measurement,
        key=lambda name: (-round(by_measurement[name], 2), MEASUREMENTS[name].minutes, name),
    )
    return ranked[0] if ranked and by_measurement[ranked[0]] >= MOVED else None


def turns(visit: Visit, site: Site) -> list[dict[str, Any]]:
    """What a trainee's own readings were worth: what told most, and what cost most for nothing.

    Parameters
    ----------
    visit : Visit
        Closed.
    site : Site
        Of its own version, with the key.

    Returns
    -------
    list
        ``text`` and ``seq``, which is none where the reading was not taken; empty where no odds
        are worked out.
    """
    key = site.key.opened()
    true = frozenset(shares(key))
    if not is_told(true, site):
        return []
    # What proves a repair is taken before it too, and the air before any charge test.
    needed = {*AIRFLOW_PROOF, *(test for tests in key.proof.values() for test in tests)}
    costliest = _costliest(_every(visit, site, true), needed)
    found = {one.event.reading.measurement: one for one in gains(visit, site, true)}
    best = most({name: one.gain for name, one in found.items()})
    if best is not None:
        text, seq = _worth(found[best]), found[best].event.seq
        return [{"text": text, "seq": seq}, *costliest]
    untaken = _not_taken(visit, site, true)
    return [*([{"text": untaken, "seq": None}] if untaken else []), *costliest]


def _costliest(taken: list[Gain], needed: set[str]) -> list[dict[str, Any]]:
    idle = [
        (MEASUREMENTS[one.event.reading.measurement].minutes, one.event)
        for one in taken
        if abs(one.gain) < MOVED and one.event.reading.measurement not in needed
    ]
    minutes, event = max(idle, key=lambda one: one[0], default=(0.0, None))
    if event is None or minutes < LONG:
        return []
    text = (
        f"The costliest for what it told: {_said(event)}, {minutes:.0f} min. After what you knew "
        "by then it hardly moved the odds."
    )
    return [{"text": text, "seq": event.seq}]


def _worth(one: Gain) -> str:
    if one.gain >= SUSPICION:
        return (
            f"What moved the odds most: {_said(one.event)}. It took what was true from "
            f"{_percent(one.before)} to {_percent(one.after)} likely, as its bar below shows. Once "
            "it is nearly sure even a strong reading has little left to move."
        )
    return f"What moved the odds most: {_said(one.event)}. It moved them only a little."


def _percent(share: float) -> str:
    if share >= 0.995:
        return "more than 99 %"
    return "less than 1 %" if share < 0.005 else f"{100.0 * share:.0f} %"


def _said(event: Measured) -> str:
    return f"{MEASUREMENTS[event.reading.measurement].said} at minute {event.minute:.0f}"


def _not_taken(visit: Visit, site: Site, true: frozenset[str]) -> str:
    """What would have told most directly; nothing where it was taken."""
    bearing = bears_most({name for cause in true for name in weights()[cause]}, true)
    if bearing is None or any(e.reading.measurement == bearing for e in visit.readings):
        return ""
    item = MEASUREMENTS[bearing]
    return (
        f"It was not taken: {item.said}, {item.minutes:g} min, "
        f"{place_said(site, item.place)}. It would have spoken most directly for what was true."
    )


def bears_most(names: set[str], true: frozenset[str]) -> str | None:
    """Where no odds are worked out: what bears most directly on one of the true causes.

    Parameters
    ----------
    names : set
        Measurements to choose from.
    true : frozenset
        Codes of what was true.

    Returns
    -------
    str or None
        None where nothing bears on them.
    """
    worth = {
        name: max((weights().get(cause, {}).get(name, 0.0) for cause in true), default=0.0)
        for name in names
    }
    best = min(worth, key=lambda name: (-worth[name], MEASUREMENTS[name].minutes, name), default="")
    return best if best and worth[best] > 0.0 else None
