"""Bars of the project beside the published ones: tables, same physics, speed, diagnosis.

Times are of the machine the report is made on, with nothing else at work there.
"""

import time
from importlib.resources import files
from pathlib import Path
from typing import Any

import CoolProp
import numpy as np

from simulator.calls import call_file
from simulator.diagnosis.expected import conditions_of, expected
from simulator.diagnosis.hypotheses import hypotheses
from simulator.diagnosis.scatter import Around
from simulator.plant import steady, timeline
from simulator.plant.case import Settled, prepared
from simulator.plant.catalogue import load_installation
from simulator.plant.report import operating_point
from simulator.properties import build, refrigerant
from simulator.serve.commands.timing.solving import comparison
from tests.diagnosis.drawn_units import drawn
from tests.plant.stand import weather
from tests.plant.test_same_physics import CASES
from tests.properties.test_refrigerant_bars import TOPS, Stand, at, latent_heat, saturated
from tests.reference import plain_solver
from tests.truth.published_circuit import PSI
from tests.truth.verdict import Verdict, state_of

DEGREE = 1 / 1.8  # [K]
OWN = "project's own bar"
COOLPROP = "CoolProp 8.0.0, phase imposed"
HERE = "this machine"
LARGE = 0.4  # of the field range [-]
COLDEST, HOTTEST = -20.0, 150.0  # of the bar on saturation [°F]


def at_most(what: str, where: str, got: float, bar: float, unit: str, source: str = OWN) -> Verdict:
    """One bar that may not be passed."""
    return _verdict(what, where, f"≤ {bar:g} {unit}", f"{got:.3g} {unit}", got <= bar, source)


def at_least(
    what: str, where: str, got: float, bar: float, unit: str, source: str = OWN
) -> Verdict:
    """One bar that must be reached."""
    shown = f"{got:,.0f}" if got >= 100.0 else f"{got:.3g}"
    return _verdict(what, where, f"≥ {bar:,g} {unit}", f"{shown} {unit}", got >= bar, source)


def _verdict(what: str, where: str, asked: str, got: str, holds: object, source: str) -> Verdict:
    name, about = what.split(": ")
    return Verdict(
        id=name, about=about, source=source, where=where, expected=asked.strip(),
        got=got.strip(), tolerance="as asked", state=state_of(holds),
    )  # fmt: skip


def tables() -> list[Verdict]:
    """Every refrigerant's table against CoolProp, its size, and how long it takes to load."""
    found = []
    for name, top in TOPS.items():
        against = f"{name} against {COOLPROP}"
        (warmth, pressure), (single, heat) = _apart(name, min(top, HOTTEST))
        size, load = _table_file(name)
        found += [
            at_most("saturation: temperature at a pressure", against, warmth, 0.02, "°F"),
            at_most("saturation: pressure at a temperature", against, pressure, 0.05, "%"),
            at_most("single phase: temperature", against, single, 0.1, "°F"),
            at_most("single phase: heat of that over the latent heat", against, heat, 0.1, "%"),
            at_most("table: size", name, size, 200.0, "kB"),
            at_most("table: time to load", name, load, 10.0, "ms"),
        ]
    return found


def _apart(name: str, top: float) -> tuple[tuple[float, float], tuple[float, float]]:
    """Largest errors of saturation [°F, %] and of single phase [°F, %]."""
    recipe = build.FLUIDS[name]
    kelvin = (np.linspace(COLDEST, top, 60) + 459.67) / 1.8
    reference = CoolProp.CoolProp.AbstractState("HEOS", recipe.key)
    stand = Stand(refrigerant.load(name), reference, recipe.coldest_liquid, kelvin)
    warmth, pressure, single, heat = [], [], [], []
    for quality in (1.0, 0.0):
        nodes = saturated(stand, quality)
        pascal, temperature = np.array(nodes).T[:2]
        line = stand.fluid.saturation(np.log(pascal))
        read = line.dew_temperature if quality else line.bubble_temperature
        inverse = stand.fluid.dew_pressure if quality else stand.fluid.bubble_pressure
        warmth.append(np.abs(read - temperature).max() / DEGREE)
        pressure.append(np.abs(inverse(temperature) / pascal - 1.0).max() * 100.0)
        for node in nodes[::6]:
            off, share = _beside(stand, node, is_vapour=bool(quality))
            single.append(off / DEGREE)
            heat.append(share * 100.0)
    return (max(warmth), max(pressure)), (max(single), max(heat))


def _beside(stand: Stand, node: Any, *, is_vapour: bool) -> tuple[float, float]:
    """Largest error 5, 20 and 40 K off the line: [K], and its heat over the latent heat [-]."""
    log = np.log(node.pressure)
    line = stand.fluid.saturation(log)
    found = []
    for away in (5.0, 20.0, 40.0):
        meant = node.temperature + (away if is_vapour else -away)
        if meant < stand.coldest_liquid + 2.0:
            continue
        phase = CoolProp.iphase_gas if is_vapour else CoolProp.iphase_liquid
        state = at(stand.reference, phase, node.pressure, meant)
        off = state.hmass() - node.enthalpy
        read = (
            stand.fluid.vapour(log, line, off) if is_vapour else stand.fluid.liquid(log, line, -off)
        )
        wrong = abs(float(read.temperature) - meant)
        found.append((wrong, wrong * state.cpmass() / float(latent_heat(line))))
    return max(one for one, _ in found), max(other for _, other in found)


def _table_file(name: str) -> tuple[float, float]:
    """Size [kB], and the shortest of twenty loads [ms]."""
    file = files("simulator.properties") / "tables" / f"{name.replace('-', '').lower()}.npz"
    taken = []
    for _ in range(20):
        refrigerant.load.cache_clear()
        begun = time.perf_counter()
        refrigerant.load(name)
        taken.append(time.perf_counter() - begun)
    return Path(str(file)).stat().st_size / 1000.0, 1000.0 * min(taken)


def same_physics() -> list[Verdict]:
    """Readings of the plant against the same balances on CoolProp and SciPy."""
    found = []
    for name, (built, around) in CASES.items():
        no = np.array([False])
        other = plain_solver.solved(built, around)[:, None]
        case = prepared(built, around)
        theirs = operating_point(case, Settled(other, ~no, np.zeros(1), no, no))
        ours = steady.solve(built, around)

        def apart(*fields: str, one: Any = ours, two: Any = theirs) -> float:
            return max(abs(float(getattr(one, f)) - float(getattr(two, f)[0])) for f in fields)

        psi = apart("suction_pressure", "liquid_pressure") / PSI
        degrees = apart(
            "suction_line_temperature", "liquid_line_temperature", "discharge_temperature",
            "supply_plenum_temperature", "superheat", "subcooling",
        ) / DEGREE  # fmt: skip
        source = "the same balances on CoolProp and SciPy"
        found.append(at_most("readings: pressures", name, psi, 0.05, "psi", source))
        found.append(at_most("readings: temperatures", name, degrees, 0.05, "°F", source))
    return found


def speed(times: int) -> list[Verdict]:
    """One core: solutions, beside other means, and an hour of a running unit."""
    found = comparison(times)
    beside = "its time over ours"
    return [
        at_least("batch: solutions a second", HERE, found["batch_solves_per_s"], 8000.0, ""),
        at_most("cold: one solution, median", HERE, found["cold_ms"], 15.0, "ms"),
        at_most("warm: one solution, median", HERE, found["warm_ms"], 8.0, "ms"),
        at_least(f"CoolProp and SciPy: {beside}, batch", HERE, found["naive_ratio"], 300.0, "×"),
        at_least(f"TESPy: {beside}, one solution", HERE, found["tespy_single_ratio"], 1.0, "×"),
        at_least(f"TESPy: {beside}, batch", HERE, found["tespy_batch_ratio"], 100.0, "×"),
        at_most("an hour: sixty minutes after a start", HERE, 1000.0 * hour(), 300.0, "ms"),
    ]


def hour() -> float:
    """The shortest of three times, each with every minute solved. [s]"""
    unit, around = load_installation(), weather()
    taken = []
    for _ in range(3):
        begun = time.perf_counter()
        minutes = [timeline.since_start(unit, 60.0 * minute) for minute in range(1, 61)]
        steady.solve_many(minutes, [around] * len(minutes))
        taken.append(time.perf_counter() - begun)
    return min(taken)


def diagnosis(*, quick: bool) -> list[Verdict]:
    """Belief on houses and units that nothing was chosen on, and how long the table takes."""
    houses = [
        house
        for kind in ((0, 3) if quick else range(10))
        for house in drawn(kind, 10 if quick else 50)
    ]
    right = float(np.mean([house.is_right(4) for house in houses]))
    large = [house.is_right(6) for house in houses if house.largest > LARGE]
    where, among = f"{len(houses)} drawn houses", f"{len(large)} drawn houses"
    return [
        at_least("first guess: right after four readings", where, right, 0.70, ""),
        at_least(
            "first guess: right after six, larger faults", among, float(np.mean(large)), 0.9, ""
        ),
        *_calibration(houses),
        at_most("hypotheses: 10,000 built", HERE, _built(), 2.0, "s"),
    ]


def _calibration(houses: list[Any]) -> list[Verdict]:
    """What was said less how often it was right, in three bands."""
    said = np.array([house.confidence(after) for house in houses for after in (2, 4, 6)])
    right = np.array([house.is_right(after) for house in houses for after in (2, 4, 6)])
    found = []
    for low, high in ((0.0, 0.5), (0.5, 0.85), (0.85, 1.01)):
        here = (said >= low) & (said < high)
        off = 100.0 * abs(float(said[here].mean()) - float(right[here].mean()))
        band = f"said {100 * low:.0f} to {min(100 * high, 100.0):.0f} %"
        found.append(at_most("calibration: said less right", band, off, 5.0, "points"))
    return found


def _built() -> float:
    """Processor time of the quickest of three, for ten thousand plants. [s]"""
    call = call_file.load("mallorn")
    house = load_installation(unit=call.unit, metering=call.metering, house=call.house)
    around, listed = Around(house, conditions_of(call)), hypotheses(call.mode, call.metering)
    taken = []
    for _ in range(3):
        begun = time.process_time()
        expected(around, listed, mode=call.mode)
        taken.append(time.process_time() - begun)
    return min(taken)
