"""The question that a debrief opens with: one of the trainee's own readings, to be explained.

Asked before anything is told, kept as written and never graded: explaining to oneself is what
makes a debrief stick (self-explanation, from memory).
"""

from dataclasses import dataclass
from typing import Any

from simulator.calls.choice import NO_FAULT
from simulator.calls.events import Measured
from simulator.calls.sheet import before_repair, steadiness, worked
from simulator.calls.site import Site
from simulator.calls.visit import Visit
from simulator.diagnosis.causes import name_of
from simulator.diagnosis.evidence import evidence
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.tools import TOOLS
from simulator.plant import steady
from simulator.plant.operating_point import OperatingPoint
from simulator.scoring.truth import shares

CLEAR = 4.0  # times a tool's own error: a move that nobody doubts [-]
QUIET = 1.5  # times the same: no move to speak of [-]
TOLD_BY = 0.15  # of evidence, from which a cause is known by a reading [-]
WORKED = {"subcooling": 0.6, "superheat": 0.6}  # error of what two tools give together [delta K]
SIGNED = ("static_pressure", "house_pressure")  # higher and lower mean little here
NOTHING = (
    "You took no steady reading before anything was repaired. What would you have measured first, "
    "and what would it have had to show?"
)


@dataclass(frozen=True, slots=True)
class Seen:
    """One reading beside what the sound unit would have shown.

    Parameters
    ----------
    name : str
        Inside a sentence.
    measurement : str
        Its id.
    seq : int
        Of the event.
    moved : float
        Found less sound, over the tool's own error. [-]
    """

    name: str
    measurement: str
    seq: int
    moved: float


def question(visit: Visit, site: Site) -> dict[str, Any]:
    """One question about the trainee's own readings.

    Parameters
    ----------
    visit : Visit
        Closed.
    site : Site
        With the key.

    Returns
    -------
    dict
        ``ask`` and ``seq``, the event of the reading; no number where there is none.
    """
    seen = _seen(visit, site)
    if not seen:
        return {"ask": NOTHING, "seq": None}
    true = tuple(shares(site.key.opened()))
    stated = visit.finding.causes if visit.finding else ()
    for cause in stated:
        still = [] if cause in (*true, NO_FAULT) else _still(seen, cause)
        if still:
            text = f"You stated: {name_of(cause)}. Why did {still[0].name} not move, then?"
            return {"ask": text, "seq": still[0].seq}
    return _of_true(seen, true)


def _of_true(seen: list[Seen], true: tuple[str, ...]) -> dict[str, Any]:
    """Of what stood still where others expect a move; else of what moved most."""
    if true == (NO_FAULT,):
        sound = evidence()[NO_FAULT]
        most = max(seen, key=lambda one: sound.get(one.measurement, ("", 0.0))[1])
        text = (
            f"The customer complained, and yet {most.name} was sound. How do the two go together?"
        )
        return {"ask": text, "seq": most.seq}
    most = max(
        (one for one in seen if one.measurement not in WORKED), key=lambda one: abs(one.moved)
    )
    quiet = [one for one in seen if abs(one.moved) <= QUIET and one.measurement in WORKED]
    if quiet:
        return {"ask": f"Why did the {quiet[0].name} not move?", "seq": quiet[0].seq}
    if abs(most.moved) < CLEAR:
        text = f"Why did {most.name} hardly move, though something was wrong?"
        return {"ask": text, "seq": most.seq}
    if TOOLS[MEASUREMENTS[most.measurement].tool_id].kind in SIGNED:
        text = f"Why did {most.name} come out so far from what a sound unit shows?"
    elif most.moved > 0.0:
        text = f"Why did {most.name} come out higher than on a sound unit?"
    else:
        text = f"Why did {most.name} come out lower than on a sound unit?"
    return {"ask": text, "seq": most.seq}


def _still(seen: list[Seen], cause: str) -> list[Seen]:
    """Readings that a cause is known by and that stood still, those that tell most first."""
    known = {
        name: weight
        for name, (goes, weight) in evidence().get(cause, {}).items()
        if goes in ("up", "down", "moved") and weight >= TOLD_BY
    }
    still = [one for one in seen if one.measurement in known and abs(one.moved) <= QUIET]
    return sorted(still, key=lambda one: -known[one.measurement])


def _seen(visit: Visit, site: Site) -> list[Seen]:
    """Steady readings before the first repair, each beside the sound unit's."""
    held = site.conditions(0.0)
    sound = steady.solve(site.healthy(), held)
    found = steady.solve(site.installation(), held)
    taken = [e for e in before_repair(visit) if steadiness(e) == "steady"]
    return [*_measured(taken, sound, found), *_worked(taken, site, sound, found)]


def _measured(taken: list[Measured], sound: OperatingPoint, found: OperatingPoint) -> list[Seen]:
    seen = []
    for event in {e.reading.measurement: e for e in taken if e.reading.value is not None}.values():
        item = MEASUREMENTS[event.reading.measurement]
        if item.truth is None:
            continue
        tool = TOOLS[item.tool_id]
        healthy = float(item.truth(sound))
        error = tool.bias + tool.noise + tool.relative_bias * abs(healthy)
        moved = float(item.truth(found)) - healthy
        seen.append(Seen(item.said, item.id, event.seq, moved / max(error, 1e-9)))
    return seen


def _worked(
    taken: list[Measured], site: Site, sound: OperatingPoint, found: OperatingPoint
) -> list[Seen]:
    return [
        Seen(
            value.name[:1].lower() + value.name[1:],
            value.id,
            max(value.from_seqs),
            (float(getattr(found, value.id)) - float(getattr(sound, value.id))) / WORKED[value.id],
        )
        for value in worked(taken, site)
        if value.id in WORKED
    ]
