"""What a coach would have a trainee look at next, from the trainee's own readings.

Nothing here knows the key: the visit's events and the call's public file are all there is.
"""

from dataclasses import dataclass, replace

from simulator.calls.call_file import CallFile
from simulator.calls.choice import NO_FAULT
from simulator.calls.events import Declared, Measured, Repaired, Started, Stopped
from simulator.calls.repair_terms import lock_out_of
from simulator.calls.visit import Visit
from simulator.diagnosis.belief import Standing
from simulator.diagnosis.coach_worth import SOMETHING, doubt, openness, others, worth_words
from simulator.diagnosis.coached import RECORD, REPAIR, SECURE, START, STATE
from simulator.diagnosis.enough import (
    WORTHLESS,
    acts_for,
    air_first,
    is_done,
    is_enough,
    last_repair,
    missing,
    newest,
    proofs,
)
from simulator.diagnosis.interview import ASKED
from simulator.diagnosis.next_reading import Worth, next_readings
from simulator.faults._catalogue import discover
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.steps import STEPS
from simulator.instruments.techniques import careful

CARE = careful("").id
FEW_ANSWERS = 3  # questions after which a trainee who measures already is left in peace [-]
BELONGS = "It belongs on the sheet before a finding is stated."
CARRIED_NOT = "What is on your sheet does not carry your finding yet."
PROVES = "It showed something before the repair, so taken again it shows what the repair did."


@dataclass(frozen=True, slots=True)
class Target:
    """What a hint is about.

    Parameters
    ----------
    about : str
        A code that can be coached.
    is_running : bool
        Whether the system must run for it.
    open_still : str
        How much is still open; empty where that is not known.
    worth : str
        What it would bring; empty where that is not known.
    beside : tuple
        On the other readings that are open, a sentence each.
    """

    about: str
    is_running: bool = True
    open_still: str = ""
    worth: str = ""
    beside: tuple[str, ...] = ()


def plain_target(visit: Visit) -> Target | None:
    """What can be told without working anything out.

    Parameters
    ----------
    visit : Visit
        Open.

    Returns
    -------
    Target or None
        None where the worth of readings decides.
    """
    if visit.repairs and visit.finding is not None:
        return _after_repair(visit)
    if visit.finding is not None:
        return None
    about = _on_arrival(visit)
    return None if about is None else Target(about)


def _on_arrival(visit: Visit) -> str | None:
    """Consent, the customer's own words, the complaint reproduced, safety before exposure."""
    if "consent" not in visit.prepared:
        return "consent"
    taken = newest(visit)
    has_measured = any(MEASUREMENTS[name].way != "ask" for name in taken)
    # An answer that was led is asked for again.
    open_asked = {e.reading.measurement for e in visit.readings if e.reading.technique == CARE}
    unasked = [name for name in ASKED if name not in open_asked]
    if unasked and (not has_measured or len(ASKED) - len(unasked) < FEW_ANSWERS):
        return unasked[0]
    if not visit.is_running and not any(
        isinstance(event, Started | Stopped) for event in visit.events
    ):
        return START
    return next(iter(hazards_at(visit.place, visit)), None)


def hazards_at(place: str, visit: Visit) -> list[str]:
    """What must be looked at for safety before anything is done at a place.

    Parameters
    ----------
    place : str
        Where.
    visit : Visit
        With what was prepared.

    Returns
    -------
    list
        Steps not done yet.
    """
    return [
        step.id
        for step in STEPS.values()
        if step.place == place
        and step.id.startswith(("hazard", "prove"))
        and step.id not in visit.prepared
    ]


def _after_repair(visit: Visit) -> Target | None:
    """The rest of what was stated mended, then proven, then written up."""
    finding = visit.finding
    causes = () if finding is None else finding.causes
    after = -1 if finding is None else finding.seq
    left = [act for act in acts_for(causes) if not is_done(visit, act, after)]
    if left and last_repair(visit) > after:
        return _before_repair(visit, left[0])
    if left:
        return None
    if not visit.is_running:
        return Target(START)
    again = newest(visit, last_repair(visit))
    unproven = [name for name in proofs(visit) if name not in again]
    if unproven:
        here = [name for name in unproven if MEASUREMENTS[name].place == visit.place]
        return Target((here or unproven)[0], worth=PROVES)
    return Target(RECORD)


def _before_repair(visit: Visit, act: str) -> Target:
    """Hazards, a system that stands still, a lock-out, then the act."""
    causes = visit.finding.causes if visit.finding else ()
    hazards = {step for cause in causes if cause != NO_FAULT for step in discover()[cause].hazards}
    open_steps = sorted(step for step in hazards if step not in visit.prepared)
    if open_steps:
        return Target(open_steps[0])
    if visit.is_running:
        return Target(SECURE)
    lock_out = lock_out_of(visit, act)
    return Target(REPAIR if lock_out is None else lock_out.id)


def reckoned_target(visit: Visit, call: CallFile, now: Standing) -> Target:
    """What the worth of the open readings speaks for.

    Parameters
    ----------
    visit : Visit
        Open, with the trainee's own readings.
    call : CallFile
        The public part.
    now : Standing
        What may be believed from those readings.

    Returns
    -------
    Target
    """
    finding = visit.finding
    best = tuple(sorted(now.belief.best))
    stated = best if finding is None else finding.causes
    worths = [one for one in next_readings(now, visit, call) if one.bits > 0.0]
    left = doubt(now.belief)
    held = _held(visit, worths)
    if held is not None:
        return _reading(held, worths, left)
    telling = [one for one in worths if one.bits >= SOMETHING and one.rate > WORTHLESS]
    if telling and not is_enough(now, stated, visit):
        chosen = _reading(air_first(telling[0], visit), worths, left)
        return chosen if finding is None else replace(chosen, open_still=CARRIED_NOT)
    if finding is not None:
        left_to_do = [act for act in acts_for(stated) if not is_done(visit, act, finding.seq)]
        return _before_repair(visit, left_to_do[0]) if left_to_do else Target(RECORD)
    lacking = missing(best, visit)
    if lacking is not None:
        wanted = air_first(lacking, visit)
        return replace(_reading(wanted, worths, left), worth=BELONGS)
    return Target(STATE, open_still=openness(left))


def _held(visit: Visit, worths: list[Worth]) -> Worth | None:
    """The reading hinted at last, as long as nothing new has been learnt."""
    if not visit.hints:
        return None
    last = visit.hints[-1]
    learnt = any(
        isinstance(event, Measured | Repaired | Declared) for event in visit.events[last.seq :]
    )
    return next((one for one in worths if one.measurement == last.about and not learnt), None)


def _reading(chosen: Worth, worths: list[Worth], left: float) -> Target:
    name = chosen.measurement
    return Target(
        name,
        chosen.is_running,
        openness(left),
        worth_words(chosen.bits, left),
        others(worths, name),
    )
