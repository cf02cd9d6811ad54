"""Four simulated trainees; what grading makes of them shows whether grading works.

One taps at random, one starts with gauges, one works down a list, one reasons from readings.
What the middle two conclude from is what many people go by: fixed rules of thumb, without
regard to weather or metering device. Common practice, no source.
"""

from collections.abc import Mapping

import numpy as np

from simulator.calls import actions
from simulator.calls.call_file import CallFile
from simulator.calls.choice import NO_FAULT
from simulator.calls.repair_terms import lock_out_of
from simulator.calls.visit import Visit
from simulator.diagnosis import rules_of_thumb as thumb
from simulator.diagnosis.causes import codes
from simulator.diagnosis.playing import Trainee
from simulator.diagnosis.reasoner import next_action
from simulator.faults._catalogue import discover
from simulator.faults._sizes import SIZES
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.places import PLACES
from simulator.instruments.steps import STEPS

FEWEST_TAPS, MOST_TAPS = 12, 30
GAUGES = (
    "ask_when", "ask_touched", "room_temperature", "outdoor_temperature", "look_outdoor_coil",
    "suction_pressure", "liquid_pressure", "suction_line_temperature", "liquid_line_temperature",
    "outdoor_leaving_temperature", "look_filter",
)  # fmt: skip
GAUGES_AGAIN = ("suction_pressure", "liquid_pressure")
RESTING = 15.0  # after a start, in minutes
LIST = (
    "ask_when", "ask_changed", "ask_touched", "ask_rooms", "read_bill",
    "room_temperature", "look_thermostat",
    "grille_dry_bulb", "grille_wet_bulb", "look_filter", "look_slot", "look_indoor_coil",
    "look_drain", "static_after_filter", "static_supply", "return_dry_bulb", "supply_dry_bulb",
    "coil_airflow", "near_register_temperature", "outdoor_temperature", "look_outdoor_coil",
    "look_frost", "suction_line_temperature", "liquid_line_temperature", "suction_pressure",
    "liquid_pressure", "outdoor_current", "air_handler_current", "voltage",
)  # fmt: skip


def reference(visit: Visit, call: CallFile, chance: np.random.Generator) -> actions.Action | None:
    """Reasons from readings; see ``reasoner``."""
    del chance
    return next_action(visit, call)


def at_random(visit: Visit, call: CallFile, chance: np.random.Generator) -> actions.Action | None:
    """Taps whatever comes, then names a cause and leaves."""
    del call
    if visit.finding is None and len(visit.events) < _taps(visit, chance):
        return _any_tap(visit, chance)
    if visit.finding is None:
        named = str(chance.choice(sorted(codes())))
        return actions.Declare(causes=(named,), cited=(), sizes=(str(chance.choice(SIZES)),))
    if not visit.repairs and visit.finding.causes != (NO_FAULT,):
        if visit.is_running:
            return actions.StopSystem()
        return actions.Repair(repair=discover()[visit.finding.causes[0]].repairs[0])
    if visit.write_up is None:
        return actions.WriteUp(text="Done.")
    return actions.Close()


def _taps(visit: Visit, chance: np.random.Generator) -> float:
    """Each further tap may be the last."""
    if len(visit.events) < FEWEST_TAPS:
        return float(MOST_TAPS)
    return MOST_TAPS if chance.random() < 0.9 else 0.0


def _any_tap(visit: Visit, chance: np.random.Generator) -> actions.Action:
    here = [
        item
        for item in MEASUREMENTS.values()
        if item.place == visit.place and all(need in visit.prepared for need in item.needs)
    ]
    steps = [
        step for step in STEPS.values()
        if step.place == visit.place and not visit.prepared & {step.id, step.stands_for}
    ]  # fmt: skip
    dice = chance.random()
    if dice < 0.25 or not here:
        return actions.GoTo(place=str(chance.choice([p for p in PLACES if p != visit.place])))
    if dice < 0.35 and steps:
        return actions.Prepare(step=steps[int(chance.integers(len(steps)))].id)
    if dice < 0.40:
        return actions.StopSystem() if visit.is_running else actions.StartSystem()
    item = here[int(chance.integers(len(here)))]
    way = item.techniques[int(chance.integers(len(item.techniques)))]
    return actions.Measure(measurement=item.id, technique=way.id)


def gauges_first(
    visit: Visit, call: CallFile, chance: np.random.Generator
) -> actions.Action | None:
    """Two questions, gauges on, a rule of thumb, a repair, gauges again."""
    del chance
    if not visit.is_running and visit.finding is None:
        return actions.StartSystem()
    for name in GAUGES:
        if name not in _values(visit) and not _has_word(visit, name):
            return _towards(name, visit)
    if visit.finding is None:
        causes = thumb.by_gauges(_values(visit), _words(visit), call)
        cited = tuple(e.seq for e in visit.readings if e.reading.value is not None)
        return actions.Declare(causes=causes, cited=cited, sizes=_middling(causes))
    return _mended(visit, GAUGES_AGAIN, _gauges_told(visit), locks_out=False)


def _middling(causes: tuple[str, ...]) -> tuple[str, ...]:
    """Who goes by rules of thumb guesses the size."""
    return ("moderate",) * len(causes)


def _gauges_told(visit: Visit) -> str:
    suction = _values(visit)["suction_pressure"] / 6894.757
    liquid = _values(visit)["liquid_pressure"] / 6894.757
    return (
        f"Checked the refrigerant side. Pressures {suction:.0f} and {liquid:.0f} psi. Put right "
        "what the gauges showed. Cooling when I left."
    )


def by_checklist(
    visit: Visit, call: CallFile, chance: np.random.Generator
) -> actions.Action | None:
    """The same readings on every call, safely and with care, judged by fixed limits."""
    del chance
    if "consent" not in visit.prepared:
        return actions.Prepare(step="consent")
    if not visit.is_running and visit.finding is None:
        return actions.StartSystem()
    for step in ("match_probes", "zero_manometer"):
        if step not in visit.prepared and visit.finding is None and _has_word(visit, "read_bill"):
            return _prepared(step, visit)
    for name in LIST:
        if name not in _values(visit) and not _has_word(visit, name):
            return _towards(name, visit)
    if visit.finding is None:
        causes, names = thumb.by_list(_values(visit), _words(visit), call)
        cited = tuple(e.seq for e in visit.readings if e.reading.measurement in names)
        return actions.Declare(causes=causes, cited=cited, sizes=_middling(causes))
    return _mended(visit, ("supply_dry_bulb",), _list_told(visit), locks_out=True)


def _list_told(visit: Visit) -> str:
    supply = 1.8 * (_values(visit)["supply_dry_bulb"] - 273.15) + 32.0
    return (
        "Went through the whole list: air, circuit, power and controls. What was found is on the "
        f"sheet and was put right where it could be. The supply air was {supply:.0f} °F and the "
        "room is coming down. Please change the filter every 3 months and call if it does not hold."
    )


def _mended(visit: Visit, again: tuple[str, ...], told: str, *, locks_out: bool) -> actions.Action:
    """The repair of the first cause, the same few readings whatever was mended, a record."""
    causes = visit.finding.causes if visit.finding else ()
    if not visit.repairs and causes != (NO_FAULT,):
        fault = discover()[causes[0]]
        for step in fault.hazards:
            if step not in visit.prepared:
                return _prepared(step, visit)
        if visit.is_running:
            return actions.StopSystem()
        lock_out = lock_out_of(visit, fault.repairs[0])
        if lock_out is not None and locks_out:
            return _prepared(lock_out.id, visit)
        return actions.Repair(repair=fault.repairs[0])
    if visit.repairs and not visit.is_running:
        return actions.StartSystem()
    for name in again if visit.repairs else ():
        if name not in _since_repair(visit):
            if visit.minute - visit.changed_at < RESTING:
                return actions.Wait(minutes=RESTING)
            return _towards(name, visit)
    return actions.WriteUp(text=told) if visit.write_up is None else actions.Close()


def _values(visit: Visit) -> Mapping[str, float]:
    return {
        e.reading.measurement: e.reading.value
        for e in visit.readings
        if e.reading.value is not None
    }


def _words(visit: Visit) -> Mapping[str, str]:
    return {e.reading.measurement: e.reading.words for e in visit.readings if e.reading.words}


def _has_word(visit: Visit, name: str) -> bool:
    return name in _words(visit)


def _since_repair(visit: Visit) -> set[str]:
    last = visit.repairs[-1].seq
    return {e.reading.measurement for e in visit.readings if e.seq > last}


def _prepared(step: str, visit: Visit) -> actions.Action:
    place = STEPS[step].place
    return actions.Prepare(step=step) if visit.place == place else actions.GoTo(place=place)


def _towards(name: str, visit: Visit) -> actions.Action:
    """One step nearer to a careful reading, the place looked at first."""
    item = MEASUREMENTS[name]
    for step in STEPS.values():
        is_hazard = step.place == item.place and step.id.startswith(("hazard", "prove"))
        if is_hazard and step.id not in visit.prepared:
            return _prepared(step.id, visit)
    for need in item.needs:
        if need not in visit.prepared:
            return _prepared(need, visit)
    if visit.place != item.place:
        return actions.GoTo(place=item.place)
    return actions.Measure(measurement=name, technique=item.techniques[0].id)


TRAINEES: Mapping[str, Trainee] = {
    "random": at_random,
    "gauges_first": gauges_first,
    "checklist": by_checklist,
    "reference": reference,
}
