"""A technician who plays any call from readings alone, by the same actions as a trainee."""

from simulator.calls import actions
from simulator.calls.call_file import CallFile
from simulator.calls.choice import NO_FAULT
from simulator.calls.events import Started, Stopped
from simulator.calls.repair_terms import LOOKS_LOCKED_OUT, PLACES_OF_REPAIRS, lock_out_of
from simulator.calls.visit import Visit
from simulator.diagnosis.belief import Standing, standing, standings
from simulator.diagnosis.cleared import ASKED_FOR, cleared, likeliest_sizes
from simulator.diagnosis.enough import (
    REVERSIBLE,
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
from simulator.diagnosis.evidence import weights
from simulator.diagnosis.interview import ASKED
from simulator.diagnosis.next_reading import Worth, next_readings
from simulator.diagnosis.record import write_up
from simulator.faults._catalogue import discover
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.settling import settles_after
from simulator.instruments.steps import STEPS

LONGEST = 150.0  # of looking for the cause, in minutes
ROUNDS = 2  # of finding and mending [-]
AFTER = 20.0  # running after a repair before it is proven, in minutes
CHECKS = ("match_probes", "check_batteries", "zero_manometer")


def next_action(visit: Visit, call: CallFile) -> actions.Action | None:
    """What a good technician does next.

    Parameters
    ----------
    visit : Visit
        With all that was shown so far.
    call : CallFile
        The public part; the key is never asked.

    Returns
    -------
    Action or None
        None once the visit is closed.
    """
    if visit.is_closed:
        return None
    if (first := _on_arrival(visit)) is not None:
        return first
    finding = visit.finding
    if finding is None:
        return _looking(visit, call)
    acts = [act for act in acts_for(finding.causes) if not is_done(visit, act, finding.seq)]
    if acts:
        return _mending(visit, acts[0])
    if visit.repairs and (proof := _proving(visit)) is not None:
        return proof
    if _is_unmended(visit, call):
        return _looking(visit, call)
    if visit.write_up is None:
        return actions.WriteUp(text=write_up(visit))
    return actions.Close()


def _on_arrival(visit: Visit) -> actions.Action | None:
    """Consent, questions, a running system, tools that can be trusted."""
    if "consent" not in visit.prepared:
        return _prepare("consent", visit)
    for question in ASKED:
        if question not in newest(visit):
            return _measure(question, visit)
    # Found off; whoever stopped it had a reason.
    if not visit.is_running and not any(isinstance(e, Started | Stopped) for e in visit.events):
        return actions.StartSystem()
    for step in CHECKS:
        if step not in visit.prepared:
            return _prepare(step, visit)
    return None


def _walk(place: str, visit: Visit) -> actions.Action | None:
    """Go there, and look for hazards before anything else."""
    if visit.place != place:
        return actions.GoTo(place=place)
    for step in STEPS.values():
        is_hazard = step.place == place and step.id.startswith(("hazard", "prove"))
        if is_hazard and step.id not in visit.prepared:
            return actions.Prepare(step=step.id)
    return None


def _prepare(step: str, visit: Visit) -> actions.Action:
    return _walk(STEPS[step].place, visit) or actions.Prepare(step=step)


def _measure(name: str, visit: Visit) -> actions.Action:
    """One step nearer to a careful reading."""
    item = MEASUREMENTS[name]
    for need in item.needs:
        if need not in visit.prepared:
            return _prepare(need, visit)
    way = item.techniques[0].id
    return _walk(item.place, visit) or actions.Measure(measurement=name, technique=way)


def _steadily(worth: Worth, visit: Visit) -> actions.Action:
    """The same with the system as it must be, and settled."""
    if worth.measurement in LOOKS_LOCKED_OUT:
        lock_out = lock_out_of(visit, worth.measurement)
        if lock_out is None:
            return _measure(worth.measurement, visit)
        return actions.StopSystem() if visit.is_running else _prepare(lock_out.id, visit)
    if worth.is_running != visit.is_running:
        return actions.StartSystem() if worth.is_running else actions.StopSystem()
    item = MEASUREMENTS[worth.measurement]
    if visit.place == item.place and all(need in visit.prepared for need in item.needs):
        left = settles_after(item.id) - (visit.minute + item.minutes - visit.changed_at)
        if worth.is_running and item.has_number and left > 0.0:
            return actions.Wait(minutes=max(left, 1.0))
    return _measure(worth.measurement, visit)


def _looking(visit: Visit, call: CallFile) -> actions.Action:
    """The reading that tells most a minute, until what is wrong stands apart."""
    now = standing(visit, call)
    best = tuple(sorted(now.belief.best))
    left = missing(best, visit)
    if not is_enough(now, best, visit):
        open_ones = [x for x in next_readings(now, visit, call) if x.bits > 0.0]
        spent = visit.minute - sum(event.minutes for event in visit.repairs)
        if open_ones and spent < LONGEST and open_ones[0].rate > WORTHLESS:
            return _steadily(air_first(open_ones[0], visit), visit)
    if left is not None:
        return _steadily(air_first(left, visit), visit)
    taken = newest(visit)
    bearing = {name for cause in best for name in weights().get(cause, {})}
    cited = tuple(event.seq for name, event in taken.items() if name in bearing)
    if (mark := _marking(visit, call, now, best)) is not None:
        return mark
    return actions.Declare(causes=best, cited=cited, sizes=likeliest_sizes(now, best))


def _marking(
    visit: Visit, call: CallFile, now: Standing, best: tuple[str, ...]
) -> actions.Mark | None:
    """The likeliest rivals that the readings have cleared, before it is said what is left."""
    taken_back = [cause for cause in best if visit.marks.get(cause) == "ruled_out"]
    if taken_back:
        return actions.Mark(cause=taken_back[0], mark="open")
    first = standings(visit.events[:1], call)[0].belief
    for cause in cleared(first, now.belief)[:ASKED_FOR]:
        if visit.marks.get(cause) != "ruled_out":
            return actions.Mark(cause=cause, mark="ruled_out")
    return None


def _mending(visit: Visit, act: str) -> actions.Action:
    """Secured, safe, then the act."""
    place = PLACES_OF_REPAIRS[act]
    causes = visit.finding.causes if visit.finding else ()
    hazards = {step for cause in causes if cause != NO_FAULT for step in discover()[cause].hazards}
    for step in sorted(hazards):
        if step not in visit.prepared:
            return _prepare(step, visit)
    if visit.is_running:
        return actions.StopSystem()
    lock_out = lock_out_of(visit, act)
    if lock_out is not None:
        return _prepare(lock_out.id, visit)
    return _walk(place, visit) or actions.Repair(repair=act)


def _proving(visit: Visit) -> actions.Action | None:
    """The readings that showed the fault, taken again when all is steady."""
    if not visit.is_running:
        return actions.StartSystem()
    wanted = [name for name in proofs(visit) if name not in newest(visit, last_repair(visit))]
    if not wanted:
        return None
    left = AFTER - (visit.minute - visit.changed_at)
    if left > 0.0:
        return actions.Wait(minutes=max(left, 1.0))
    here = [name for name in wanted if MEASUREMENTS[name].place == visit.place]
    return _measure((here or wanted)[0], visit)


def _is_unmended(visit: Visit, call: CallFile) -> bool:
    """Whether readings after a repair say that something else is still wrong."""
    rounds = sum(type(event).__name__ == "Declared" for event in visit.events)
    if not visit.repairs or rounds >= ROUNDS:
        return False
    now = standing(visit, call).belief
    return now.causes.get(NO_FAULT, 0.0) < 0.1 and now.odds(now.best) >= REVERSIBLE
