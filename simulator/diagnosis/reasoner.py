"""A technician who plays any call from readings alone, by the same actions as a trainee."""

from simulator.calls import actions
from simulator.calls.call_file import CallFile
from simulator.calls.choice import NO_FAULT
from simulator.calls.events import Measured, Repaired, Started, Stopped
from simulator.calls.repair_terms import PLACES_OF_REPAIRS, lock_out_of
from simulator.calls.visit import Visit
from simulator.diagnosis.belief import Standing, standing
from simulator.diagnosis.evidence import ENOUGH, evidence, weights
from simulator.diagnosis.interview import ASKED
from simulator.diagnosis.next_reading import SETTLED, Worth, minutes_for, next_readings
from simulator.diagnosis.record import write_up
from simulator.faults._catalogue import discover
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.steps import STEPS

REVERSIBLE, COSTLY = 1.0, 1.5  # decimal logarithm of the odds that carry a repair [-]
FEWEST = 6  # numbers on the sheet before anything is declared [-]
LONGEST = 150.0  # of looking for the cause, in minutes
ROUNDS = 2  # of finding and mending [-]
WORTHLESS = 0.004  # bits a minute below which nothing more is to be learnt [-]
AFTER = 20.0  # running after a repair before it is proven, in minutes
DEAR = ("replace_compressor", "replace_reversing_valve", "weigh_in_charge", "replace_drier")
PRESSURES = ("suction_pressure", "liquid_pressure", "vapour_port_pressure", "standing_pressure")
BEFORE_PRESSURES = ("coil_airflow", "outdoor_temperature")
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
    acts = [act for act in acts_for(finding.causes) if not _is_done(visit, act, finding.seq)]
    if acts:
        return _mending(visit, acts[0])
    if visit.repairs and (proof := _proving(visit)) is not None:
        return proof
    if _is_unmended(visit, call):
        return _looking(visit, call)
    if visit.write_up is None:
        return actions.WriteUp(text=write_up(visit))
    return actions.Close()


def acts_for(causes: tuple[str, ...]) -> list[str]:
    """One act for each cause, none twice.

    Parameters
    ----------
    causes : tuple
        Codes.

    Returns
    -------
    list
        Codes of repairs.
    """
    found = [discover()[cause].repairs[0] for cause in causes if cause != NO_FAULT]
    return list(dict.fromkeys(found))


def _taken(visit: Visit, after: int = -1) -> dict[str, Measured]:
    """The newest reading of each measurement."""
    return {e.reading.measurement: e for e in visit.readings if e.seq > after}


def _last_repair(visit: Visit) -> int:
    return visit.repairs[-1].seq if visit.repairs else -1


def _on_arrival(visit: Visit) -> actions.Action | None:
    """Consent, questions, a running system, tools that can be trusted."""
    if "consent" not in visit.prepared:
        return _prepare("consent", visit)
    for question in ASKED:
        if question not in _taken(visit):
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
    if worth.is_running != visit.is_running:
        return actions.StartSystem() if worth.is_running else actions.StopSystem()
    item = MEASUREMENTS[worth.measurement]
    if visit.place == item.place and all(need in visit.prepared for need in item.needs):
        left = SETTLED - (visit.minute + item.minutes - visit.changed_at)
        if worth.is_running and item.has_number and left > 0.0:
            return actions.Wait(minutes=max(left, 1.0))
    return _measure(worth.measurement, visit)


def _looking(visit: Visit, call: CallFile) -> actions.Action:
    """The reading that tells most a minute, until what is wrong stands apart."""
    now = standing(visit, call)
    best = tuple(sorted(now.belief.best))
    missing = _missing(best, visit)
    if not _is_proven(now, best, visit):
        open_ones = [x for x in next_readings(now, visit, call) if x.bits > 0.0]
        spent = visit.minute - sum(event.minutes for event in visit.repairs)
        if open_ones and spent < LONGEST and open_ones[0].rate > WORTHLESS:
            return _steadily(_valid(open_ones[0], visit), visit)
    if missing is not None:
        return _steadily(_valid(missing, visit), visit)
    taken = _taken(visit)
    bearing = {name for cause in best for name in weights().get(cause, {})}
    cited = tuple(event.seq for name, event in taken.items() if name in bearing)
    return actions.Declare(causes=best, cited=cited)


def _is_proven(now: Standing, best: tuple[str, ...], visit: Visit) -> bool:
    numbers = [event for event in visit.readings if event.reading.value is not None]
    dear = any(act in DEAR for act in acts_for(best))
    return now.belief.odds(best) >= (COSTLY if dear else REVERSIBLE) and len(numbers) >= FEWEST


def _missing(causes: tuple[str, ...], visit: Visit) -> Worth | None:
    """What still belongs on the sheet before a finding.

    A number for each cause that must come right after the repair; then, cheapest first, what
    carries the finding before others.
    """
    if visit.repairs:
        return None
    taken = _taken(visit)
    for cause in causes:
        bearing = weights().get(cause, {})
        number = telling_number(cause)
        if cause != NO_FAULT and number is not None and number not in taken:
            return Worth(number, number not in OFF_ONLY, 0.0, 1.0)
        carried = sum(weight for name, weight in bearing.items() if name in taken)
        open_ones = [name for name in bearing if name not in taken]
        if carried < ENOUGH and open_ones:
            cheapest = max(
                open_ones,
                key=lambda name: bearing[name] / minutes_for(name, visit, is_running=True),
            )
            return Worth(cheapest, cheapest not in OFF_ONLY, 0.0, 1.0)
    return None


def telling_number(cause: str) -> str | None:
    """The number that moves most with a cause while the system runs.

    Parameters
    ----------
    cause : str
        Its code.

    Returns
    -------
    str or None
        Measurement; none for a cause that only words show.
    """
    moving = {
        name: weight
        for name, (goes, weight) in evidence()[cause].items()
        if goes in ("up", "down", "moved")
        and MEASUREMENTS[name].has_number
        and name not in OFF_ONLY
    }
    return max(moving, key=lambda name: moving[name]) if moving else None


OFF_ONLY = ("run_capacitor", "winding_resistance", "duct_leakage", "standing_pressure")


def _valid(worth: Worth, visit: Visit) -> Worth:
    """Air is proven before pressures."""
    if worth.measurement in PRESSURES and worth.is_running:
        for name in BEFORE_PRESSURES:
            if name not in _taken(visit):
                return Worth(name, True, worth.bits, worth.minutes)
    return worth


def _is_done(visit: Visit, act: str, after: int) -> bool:
    return any(event.repair == act and event.seq > after for event in visit.repairs)


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
    wanted = [name for name in proofs(visit) if name not in _taken(visit, _last_repair(visit))]
    if not wanted:
        return None
    left = AFTER - (visit.minute - visit.changed_at)
    if left > 0.0:
        return actions.Wait(minutes=max(left, 1.0))
    here = [name for name in wanted if MEASUREMENTS[name].place == visit.place]
    return _measure((here or wanted)[0], visit)


def proofs(visit: Visit) -> list[str]:
    """Readings before the repair that bear on what was mended, running.

    Parameters
    ----------
    visit : Visit
        With a finding and repairs.

    Returns
    -------
    list
        Measurements, those that weigh most first, four of each cause at most.
    """
    if visit.finding is None:
        return []
    first = next((e.seq for e in visit.events if isinstance(e, Repaired)), 0)
    before = {e.reading.measurement for e in visit.readings if e.seq < first and e.is_running}
    found: list[str] = []
    for cause in visit.finding.causes:
        bearing = weights().get(cause, {})
        taken = [name for name in bearing if name in before and name not in OFF_ONLY]
        number = telling_number(cause)
        found += [number] if number in before and number is not None else []
        found += sorted(taken, key=lambda name: -bearing[name])[:3]
    return list(dict.fromkeys(found))


def _is_unmended(visit: Visit, call: CallFile) -> bool:
    """Whether readings after a repair say that something else is still wrong."""
    rounds = sum(type(event).__name__ == "Declared" for event in visit.events)
    if not visit.repairs or rounds >= ROUNDS:
        return False
    now = standing(visit, call).belief
    return now.causes.get(NO_FAULT, 0.0) < 0.1 and now.odds(now.best) >= REVERSIBLE
