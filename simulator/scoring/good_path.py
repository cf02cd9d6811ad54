"""One good path of many: a technician who sees readings only plays this very call."""

from collections.abc import Mapping
from typing import Any

import numpy as np

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
from simulator.calls.site import Site
from simulator.calls.visit import Visit
from simulator.diagnosis.belief import Belief, history
from simulator.diagnosis.causes import name_of
from simulator.diagnosis.enough import BEFORE_PRESSURES, PRESSURES
from simulator.diagnosis.interview import ASKED
from simulator.diagnosis.playing import NeverEnds, played
from simulator.diagnosis.reasoner import CHECKS
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.special_measurements import OFF
from simulator.instruments.steps import LOCK_OUTS
from simulator.scoring.careful import carefully
from simulator.scoring.telling import told
from simulator.scoring.truth import shares

SURE = 0.9  # of one set of causes; more readings then settle what is left [-]


def good_path(site: Site, system: str) -> dict[str, Any]:
    """A visit of the same house by somebody who reasons from readings.

    Parameters
    ----------
    site : Site
        With the key, which the player never sees.
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    dict
        ``said``, a sentence on how it went, and ``steps`` with minute, text and reason.
    """
    try:
        visit = played(site, carefully, np.random.default_rng(0))
    except NeverEnds:
        return {"said": "No path was worked out for this call.", "steps": []}
    beliefs = {belief.seq: belief for belief in history(visit, site.call)}
    return {"said": _said(visit, site), "steps": _steps(visit, beliefs, site, system)}


def _said(visit: Visit, site: Site) -> str:
    """How it went: right or not, it is told."""
    true, found = set(shares(site.key.opened())), set(visit.finding.causes if visit.finding else ())
    names = "; ".join(name_of(code) for code in sorted(found))
    if found == true:
        return f"In {visit.minute:.0f} min on site it comes to what was true: {names}."
    return f"In {visit.minute:.0f} min on site it comes to this, which is not all of it: {names}."


def _steps(
    visit: Visit, beliefs: Mapping[int, Belief], site: Site, system: str
) -> list[dict[str, Any]]:
    """Its acts, walks left out, each with its reason."""
    before = beliefs[-1]
    first = visit.repairs[0].seq if visit.repairs else visit.next_seq
    steps: list[dict[str, Any]] = []
    for event in visit.events:
        if not isinstance(event, Moved | Opened):
            why = _why(event, before, first, visit)
            # The same reason twice in a row is said once.
            is_new = not steps or why != next((s["why"] for s in reversed(steps) if s["why"]), "")
            steps.append(
                {
                    "minute": round(event.minute),
                    "text": _text(event, site, system),
                    "why": why if is_new else "",
                }
            )
        before = beliefs.get(event.seq, before)
    return steps


def _text(event: Event, site: Site, system: str) -> str:
    """What was done; what people said stands on the trainee's own timeline already."""
    if isinstance(event, Measured) and event.reading.measurement in ASKED:
        return f"{MEASUREMENTS[event.reading.measurement].name}."
    return told(event, site, system)


def _why(event: Event, before: Belief, first: int, visit: Visit) -> str:
    match event:
        case Prepared():
            return _why_prepared(event)
        case Measured() if event.seq > first:
            return "The same point again, settled: only a pair proves the repair."
        case Measured():
            return _why_measured(event, before, visit)
        case Waited():
            return "Numbers count only when the system has settled."
        case Started():
            return "Most readings need it running."
        case Stopped():
            return _why_stopped(event, visit)
        case Marked() | Declared():
            return _why_stated(event)
        case Repaired():
            return "It mends what was found, and nothing is done that was not shown."
        case Closed():
            return ""
        case _:
            return "The customer keeps what was found, done and measured."


def _why_prepared(event: Prepared) -> str:
    if event.step == "consent":
        return "Before anything in somebody's house."
    if event.step in CHECKS:
        return "A tool that is not checked puts doubt on every small difference."
    if event.step in LOCK_OUTS:
        return "Power off and locked before hands go in."
    if event.step.startswith(("hazard", "prove")):
        return "What can hurt comes before what can be measured."
    return "The next reading needs it."


def _why_stated(event: Marked | Declared) -> str:
    if isinstance(event, Marked):
        return "The readings have cleared it; what is left stands the surer for it."
    return "The readings carry it, and no rival stands near."


def _why_stopped(event: Stopped, visit: Visit) -> str:
    after = next((e for e in visit.events[event.seq :] if isinstance(e, Measured | Repaired)), None)
    if isinstance(after, Measured):
        if MEASUREMENTS[after.reading.measurement].caution == OFF:
            return "Power off and proven dead before hands go in."
        return "The next reading can be taken only at rest."
    return "Nothing is opened while it runs."


def _why_measured(event: Measured, before: Belief, visit: Visit) -> str:
    name = event.reading.measurement
    if name in ASKED:
        return "What people know costs a minute and shifts what is likely."
    later = [e.reading.measurement for e in visit.readings if e.seq > event.seq]
    if name in BEFORE_PRESSURES and later and later[0] in (*PRESSURES, *BEFORE_PRESSURES):
        return "Air and weather before pressures: no charge test counts without them."
    ranked = sorted(before.sets, key=lambda one: (-before.sets[one], sorted(one)))
    one, other = (_names(causes) for causes in ranked[:2])
    if before.sets[ranked[0]] >= SURE:
        return f"One more way to see it, before it is stated: {one}."
    minutes = MEASUREMENTS[name].minutes
    if ranked[1] > ranked[0]:
        beside = _names(ranked[1] - ranked[0])
        return (
            f"Likeliest by then: {one}. Still open is what else is wrong beside it, first of all "
            f"{beside}; this tells most of that for its {minutes:g} min."
        )
    return f"Tells most for its {minutes:g} min; likeliest by then: {one}, or {other}."


def _names(causes: frozenset[str]) -> str:
    said = [name_of(cause) for cause in sorted(causes)]
    small = [name[:1].lower() + name[1:] for name in said]
    if len(small) == 2:
        return f"{small[0]} together with {small[1]}"
    return "; ".join(small)
