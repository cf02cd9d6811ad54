"""Points for the dangers of the site: those of its key, and the power locked out."""

from dataclasses import dataclass

from simulator.calls.events import Event, Measured, Prepared, Repaired
from simulator.calls.repair_terms import LOCKED_OUT, LOOKS_LOCKED_OUT
from simulator.calls.sealed import Hazard, Key
from simulator.calls.visit import Visit, along
from simulator.instruments.steps import STEPS
from simulator.repairs._catalogue import discover
from simulator.scoring.part import Because, Part, part

ENTERED = frozenset({"zone"})  # attics and crawl spaces: being there is the danger
LOCK_OUT_POINTS = 4.0  # each lock-out missed; no outside source, the project's own weight [-]


@dataclass(frozen=True, slots=True)
class Exposure:
    """Hands at terminals.

    Parameters
    ----------
    event : Measured or Repaired
        The act.
    step : str
        The lock-out it asks for.
    is_met : bool
        Whether it was on.
    """

    event: Measured | Repaired
    step: str
    is_met: bool

    @property
    def text(self) -> str:
        """What was or was not done, for people.

        Returns
        -------
        str
        """
        if isinstance(self.event, Repaired):
            act = discover()[self.event.repair].title
        else:
            act = "a look among the terminals"
        at = f"{act} at minute {self.event.minute:.0f}"
        if self.is_met:
            return f"Locked out and proven dead: {at}."
        return (
            f"Not locked out: {at}. A system that is only called off has live terminals and a "
            "charged capacitor."
        )


def lock_outs(visit: Visit) -> list[Exposure]:
    """Acts with hands at terminals, and whether the power was locked out.

    Parameters
    ----------
    visit : Visit
        Closed.

    Returns
    -------
    list
        Oldest first.
    """
    found = []
    for before, event in along(visit.events):
        if isinstance(event, Repaired):
            step = LOCKED_OUT.get(event.repair)
        elif isinstance(event, Measured):
            step = LOOKS_LOCKED_OUT.get(event.reading.measurement)
        else:
            continue
        if step is not None:
            found.append(Exposure(event, step, step in before.prepared))
    return found


def missed_by(visit: Visit) -> int:
    """The event by which something left undone should have been done.

    Parameters
    ----------
    visit : Visit
        Closed.

    Returns
    -------
    int
        The first repair, or the end of the visit.
    """
    return visit.repairs[0].seq if visit.repairs else visit.events[-1].seq


def exposed_by(visit: Visit, hazard: Hazard) -> Event | None:
    """The first act that brought the technician near a hazard.

    Parameters
    ----------
    visit : Visit
        Closed.
    hazard : Hazard
        Which.

    Returns
    -------
    Event or None
    """
    for event in visit.events:
        if isinstance(event, Measured) and event.place in hazard.places:
            return event
        if isinstance(event, Repaired) and event.repair in hazard.repairs:
            return event
    return None


def met_at(visit: Visit, step: str) -> Prepared | None:
    """The preparation, if it was done.

    Parameters
    ----------
    visit : Visit
        Closed.
    step : str
        Which.

    Returns
    -------
    Prepared or None
    """
    return next((e for e in visit.events if isinstance(e, Prepared) and e.step == step), None)


def _of_hazards(visit: Visit, key: Key) -> tuple[float, float, list[Because]]:
    """Earned, due, and why, of the dangers of this site."""
    because: list[Because] = []
    earned = due = 0.0
    for hazard in key.hazards:
        exposed, met = exposed_by(visit, hazard), met_at(visit, hazard.step)
        # A hazard nobody came near earns nothing and costs nothing.
        if exposed is None and not hazard.is_always_due:
            continue
        due += hazard.points
        if met is not None and (exposed is None or met.seq < exposed.seq):
            earned += hazard.points
            because.append(Because(f"In time: {STEPS[hazard.step].name}.", met.seq))
        else:
            seq = exposed.seq if exposed else missed_by(visit)
            because.append(Because(f"Missed: {hazard.text}", seq))
    return earned, due, because


def safety(visit: Visit, key: Key) -> Part:
    """Of the dangers this visit had to meet, those met before the first exposure.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        Names the hazards of the site.

    Returns
    -------
    Part
        Of the hazards' points together; none where nothing was done that needed care.
    """
    of = sum(hazard.points for hazard in key.hazards)
    earned, due, because = _of_hazards(visit, key)
    hands = lock_outs(visit)
    for step in dict.fromkeys(one.step for one in hands):
        due += LOCK_OUT_POINTS
        if all(one.is_met for one in hands if one.step == step):
            earned += LOCK_OUT_POINTS
    because += [Because(one.text, one.event.seq) for one in hands]
    if not hands and not any(exposed_by(visit, hazard) for hazard in key.hazards):
        said = "No points for safety: nothing was done that needed care."
        return part("Safety", 0.0, of, [Because(said, visit.events[-1].seq), *because])
    return part("Safety", of * earned / due if due else 0.0, of, because)


def unsafe(visit: Visit, key: Key) -> list[tuple[str, int]]:
    """Repairs beside a hazard that was never met, and work in a space that nobody looked into.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        Names the hazards.

    Returns
    -------
    list
        A sentence and the event each.
    """
    found = []
    for hazard in key.hazards:
        met = met_at(visit, hazard.step)
        for event in visit.events:
            late = met is None or met.seq > event.seq
            if hazard.is_gate and late and _exposes(event, hazard):
                found.append((f"Unsafe, so the total is held at 40: {hazard.text}", event.seq))
                break
    for one in lock_outs(visit):
        if not one.is_met and isinstance(one.event, Repaired):
            found.append((f"Unsafe, so the total is held at 40: {one.text}", one.event.seq))
            break
    return found


def _exposes(event: Event, hazard: Hazard) -> bool:
    """Whether an act beside a hazard that was not met caps the whole."""
    if isinstance(event, Measured):
        return event.place in ENTERED and event.place in hazard.places
    return isinstance(event, Repaired) and event.repair in hazard.repairs
