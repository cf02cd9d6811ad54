"""Houses with something wrong, drawn apart from whatever the table was built and tuned on."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from simulator.calls import actions, call_file, events
from simulator.calls.call_file import CallFile
from simulator.calls.choice import NO_FAULT
from simulator.calls.decide import decide
from simulator.calls.sealed import Key, Sealed
from simulator.calls.site import Site
from simulator.calls.visit import Visit, advanced
from simulator.diagnosis import scatter
from simulator.diagnosis.belief import Belief, standing
from simulator.diagnosis.hypotheses import Hypothesis, hypotheses
from simulator.diagnosis.next_reading import next_readings
from simulator.faults._base import Fault
from simulator.faults._catalogue import discover
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.steps import STEPS

# Every number of the engine was chosen on Quail 36 in the houses of the eight calls.
UNITS = ("heron_30", "dunlin_48", "martlet_24", "bittern_60", "siskin_18")
HOUSES = ("lundgaard", "achterberg", "pemberly", "tavener", "rooke")
PLAYED = ("lundgaard", "achterberg", "pemberly", "winterbourne")
CHECKS = ("match_probes", "check_batteries", "zero_manometer")
# Noted on every sheet before a residual means anything; not counted as diagnostic readings.
CONDITIONS = ("grille_dry_bulb", "grille_wet_bulb", "outdoor_temperature")


@dataclass(frozen=True)
class Drawn:
    """One house, and what the engine thought after each well-chosen reading."""

    causes: frozenset[str]
    largest: float  # size over the top of its range, of the largest fault [-]
    beliefs: tuple[Belief, ...]
    readings: tuple[str, ...]

    def is_right(self, after: int) -> bool:
        return self.beliefs[min(after, len(self.beliefs) - 1)].best == self.causes

    def confidence(self, after: int) -> float:
        belief = self.beliefs[min(after, len(self.beliefs) - 1)]
        return belief.sets[belief.best]


def nominal(number: int) -> CallFile:
    """A work order that tells nothing, with the weather and rooms that a table is built for."""
    call = call_file.load(PLAYED[number % len(PLAYED)])
    return replace(
        call,
        title="",
        complaint="",
        history=(),
        is_running=True,
        unit=UNITS[number % len(UNITS)],
        house=HOUSES[number // 2 % len(HOUSES)],
        metering=call.metering if call.mode == "heating" else ("txv", "orifice")[number % 3 // 2],
    )


def actual(call: CallFile, chance: np.random.Generator) -> CallFile:
    """The same with the weather and rooms there really are."""
    warmer = scatter.OUTDOOR * chance.standard_normal()
    room, water, damp, volts = chance.standard_normal(4)
    weather = replace(
        call.weather,
        high=call.weather.high + warmer,
        low=call.weather.low + warmer,
        humidity_ratio=max(call.weather.humidity_ratio + scatter.OUTDOOR_WATER * damp, 1e-4),
    )
    return replace(
        call,
        weather=weather,
        room_temperature=call.room_temperature + scatter.ROOM * room,
        room_humidity_ratio=call.room_humidity_ratio + scatter.ROOM_WATER * water,
        voltage=call.voltage * (1.0 + scatter.VOLTAGE * volts),
    )


def truth(call: CallFile, chance: np.random.Generator) -> Hypothesis:
    """What is wrong, as often as it is met."""
    listed = hypotheses(call.mode, call.metering)
    weight = np.array([one.weight for one in listed])
    return listed[int(chance.choice(len(listed), p=weight / weight.sum()))]


def drawn(number: int, count: int, most: int = 6) -> Iterator[Drawn]:
    """Many houses of one kind, each looked into by as many well-chosen readings."""
    call = nominal(number)
    for play in range(count):
        chance = np.random.default_rng((900, number, play))
        yield looked_into(call, truth(call, chance), chance, most)


def looked_into(call: CallFile, what: Hypothesis, chance: np.random.Generator, most: int) -> Drawn:
    sizes = [float(chance.uniform(low, high)) for low, high in what.spans]
    kinds = [discover()[code] for code in what.causes]
    faults = tuple(Fault(kind, size) for kind, size in zip(kinds, sizes, strict=True))
    key = Key(faults=faults, causes={}, repairs={}, proof={}, hazards=(), usual_minutes=1, story="")
    site = Site(actual(call, chance), Sealed(key), int(chance.integers(2**60)))
    visit = advanced(Visit(), events.Opened(seq=0, minute=0.0, is_running=True))
    for step in CHECKS:
        visit = _at(visit, STEPS[step].place, site)
        visit = _done(visit, actions.Prepare(step=step), site)
    for name in CONDITIONS:
        visit = _read(visit, name, is_running=True, site=site)
    beliefs = [standing(visit, call).belief]
    for _ in range(most):
        best = max(next_readings(standing(visit, call), visit, call), key=lambda x: x.bits)
        visit = _read(visit, best.measurement, is_running=best.is_running, site=site)
        beliefs.append(standing(visit, call).belief)
    largest = max((f.severity / (f.kind.high * f.kind.unit_in_si) for f in faults), default=1.0)
    names = tuple(event.reading.measurement for event in visit.readings[len(CONDITIONS) :])
    return Drawn(frozenset(what.causes or (NO_FAULT,)), largest, tuple(beliefs), names)


def _done(visit: Visit, action: actions.Action, site: Site) -> Visit:
    for event in decide(visit, action, site=site, causes=()):
        visit = advanced(visit, event)
    return visit


def _at(visit: Visit, place: str, site: Site) -> Visit:
    return visit if visit.place == place else _done(visit, actions.GoTo(place=place), site)


def _read(visit: Visit, name: str, *, is_running: bool, site: Site) -> Visit:
    item = MEASUREMENTS[name]
    if visit.is_running != is_running:
        switch = actions.StartSystem() if is_running else actions.StopSystem()
        visit = _done(visit, switch, site)
        visit = _done(visit, actions.Wait(minutes=30.0), site)
    for need in item.needs:
        if need not in visit.prepared:
            visit = _at(visit, STEPS[need].place, site)
            visit = _done(visit, actions.Prepare(step=need), site)
    visit = _at(visit, item.place, site)
    way = item.techniques[0].id
    return _done(visit, actions.Measure(measurement=name, technique=way), site)
