"""Smell tests of tools, heating, repairs and the day (rows 18, 19, 27, 28, 30, 32, 33, 35)."""

from dataclasses import replace
from functools import lru_cache
from itertools import pairwise, product

import numpy as np

from simulator.faults._catalogue import discover, named
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.reading import Reading
from simulator.instruments.session import Session
from simulator.instruments.take import Hands, lagged, take
from simulator.instruments.tools import TOOLS
from simulator.instruments.validity import charge_test_problems
from simulator.instruments.worked_out import work_out
from simulator.plant import catalogue, defrost, energy, standing, steady, timeline
from simulator.plant.conditions import Conditions
from simulator.plant.operating_point import OperatingPoint
from simulator.plant.timeline import Moment
from simulator.properties import moist_air, refrigerant
from simulator.repairs import _catalogue as repairs
from simulator.repairs._base import Repair
from tests.faults.signs import cases, healthy, observed
from tests.plant.stand import fahrenheit, weather, winter
from tests.plant.test_coldest_days import UNITS, most_of_a_day, taken
from tests.truth.benches import Bench
from tests.truth.field import Field
from tests.truth.published_circuit import PSI
from tests.truth.smell import Smell, Smelt, figures

HOT = energy.DayWeather(high=fahrenheit(95), low=fahrenheit(75), humidity_ratio=0.014)
SETPOINT = fahrenheit(76)
STEP = 600.0  # of the day's record [s]
VISITS = 24


def _taken(name: str, seed: int, repeats: int) -> list[float]:
    """A settled reading taken again and again on one visit, in SI."""
    point = Bench().at()
    moment = Moment(now=point, before=point, seconds=3600.0)
    ready = frozenset({"zero_manometer", "match_probes"})
    hands = Hands(prepared=ready, session=Session.of_visit(seed), texts={})
    chance = np.random.default_rng(seed)
    item = MEASUREMENTS[name]
    found = [
        take(name, item.techniques[0].id, moment=moment, installation=Bench().installed(),
             hands=hands, chance=chance).value
        for _ in range(repeats)
    ]  # fmt: skip
    return [value for value in found if value is not None]


def _measured() -> list[str]:
    """One measurement of each tool that shows a number other than zero."""
    point = Bench().at()
    first = {
        item.tool_id: name
        for name, item in reversed(MEASUREMENTS.items())
        if item.truth is not None and abs(item.truth(point)) > 1e-9
    }
    return sorted(first.values())


def _tools(field: Field) -> Smelt:
    """On a visit takes scatter; between visits the bias differs."""
    del field
    broken = []
    for name in _measured():
        tool = TOOLS[MEASUREMENTS[name].tool_id]
        visits = [float(np.mean(_taken(name, seed, 12))) for seed in range(8)]
        scatter = max(float(np.std(_taken(name, seed, 40))) for seed in range(3))
        if tool.noise == 0.0 or scatter == 0.0:
            broken.append(f"{name}: takes do not scatter")
        if np.std(visits) == 0.0:
            broken.append(f"{name}: no bias between visits")
    return Smelt(looked=len(_measured()), broken=tuple(broken))


def _lag(field: Field) -> Smelt:
    """Ten seconds after the start no temperature or pressure has arrived, after 15 it has."""
    del field
    bench, around = Bench(), weather()
    rest = standing.at_rest(bench.installed(), around)
    early = timeline.quasi_steady(bench.installed(), around, 10.0)
    late = timeline.quasi_steady(bench.installed(), around, 900.0)
    broken, looked = [], 0
    for name in (
        "liquid_pressure",
        "suction_line_temperature",
        "supply_dry_bulb",
        "liquid_line_temperature",
    ):
        item = MEASUREMENTS[name]
        tool = TOOLS[item.tool_id]
        final = item.truth(bench.at())
        whole = abs(final - item.truth(rest))
        soon = lagged(item, tool, Moment(now=early, before=rest, seconds=10.0))
        settled = lagged(item, tool, Moment(now=late, before=rest, seconds=900.0))
        looked += 1
        if abs(soon - final) < 0.10 * whole:
            broken.append(f"{name} is there after 10 s")
        if abs(settled - final) > 0.02 * whole:
            broken.append(f"{name} is not there after 15 min")
    return Smelt(looked=looked, broken=tuple(broken))


def _heating_map(field: Field) -> Smelt:
    """Capacity falls with the weather; frost on a cold damp coil only."""
    broken, looked = [], 0
    for unit in field.units:
        for metering in catalogue.METERING:
            bench = Bench(unit, metering)
            steps = [bench.heating(outdoor) for outdoor in (62.0, 47.0, 35.0, 28.0, 17.0, 7.0)]
            looked += 1
            heats = [float(point.gross_capacity) for point in steps if point.state == "running"]
            if any(later >= sooner for sooner, later in pairwise(heats)):
                broken.append(f"{bench.label}: capacity does not fall")
            if defrost.cycle(bench.installed(), winter(60.0, humidity=0.9)).frost.max() > 0.0:
                broken.append(f"{bench.label}: frost at 60 °F")
            if bench.heating(28.0, humidity=0.9).frost_rate <= 0.0:
                broken.append(f"{bench.label}: no frost at 28 °F and 90 % RH")
            # The board as it was delivered, over a whole cycle.
            turned = defrost.cycle(bench.installed(), winter(28.0, humidity=0.9))
            if turned.defrosts_per_hour <= 0.0:
                broken.append(f"{bench.label}: no defrost at 28 °F and 90 % RH")
    return Smelt(looked=looked, broken=tuple(broken))


def _as_r410a(point: OperatingPoint, bench: Bench) -> float:
    """Head that R-410A shows where this unit's refrigerant condenses. [psi]"""
    own = refrigerant.load(bench.installed().unit.refrigerant)
    condensing = own.saturation(np.log(point.liquid_pressure)).bubble_temperature
    return float(refrigerant.load("R-410A").bubble_pressure(condensing)) / PSI


def _heating_head(field: Field) -> Smelt:
    """The 20 psi were found on R-410A, 4.4 °F there; less air warms every condensing coil alike.

    A degree moves R-22 by two thirds of what it moves R-410A, so that the same rise of condensing
    temperature is asked of every refrigerant, and said in the psi of R-410A.
    """
    each = {}
    for unit in field.units:
        for metering in catalogue.METERING:
            bench = Bench(unit, metering)
            heads = [_as_r410a(bench.heating(airflow=air), bench) for air in (1.0, 0.8)]
            each[f"{bench.label} psi"] = (heads[1] - heads[0], 20.0, 80.0)
    return figures(**each)


def _iced(field: Field) -> Smelt:
    """An iced coil, its airflow proven as the procedure asks: the charge test must be refused."""
    del field
    broken, looked = [], 0
    for ice in (0.4, 0.6, 0.8):
        built = Bench().installed()
        coil = replace(built.unit.indoor_coil, ice=ice)
        point = steady.solve(replace(built, unit=replace(built.unit, indoor_coil=coil)), weather())
        taken = [
            Reading(measurement=name, technique="plain", kind=kind, value=float(value))
            for name, kind, value in (
                ("coil_airflow", "airflow", point.airflow),
                ("outdoor_temperature", "temperature", point.outdoor_temperature),
            )
        ]
        said = charge_test_problems(
            taken, rated_airflow=float(built.unit.rated_airflow), seconds_since_start=1800.0,
            seconds_since_charge=None,
        )  # fmt: skip
        if point.state != "running":
            continue
        looked += 1
        if not said:
            share = float(point.airflow / built.unit.rated_airflow)
            broken.append(f"{ice:.0%} ice, airflow {share:.0%}: nothing refuses the test")
    return Smelt(looked=looked, broken=tuple(broken))


def _counterfactual(field: Field) -> Smelt:
    """What the fault names mends it; another act only if it renews charge, drier and lines.

    Such an act opens the circuit, and whoever does that evacuates it and weighs the charge in:
    it is known by mending a low charge.
    """
    del field
    broken, looked = [], 0
    acts = repairs.discover()
    simple = [name for name, kind in acts.items() if kind.amount_name is None]
    opening = {act for act in simple if _cures(acts[act](), "undercharge")}
    for name, kind in discover().items():
        cured = {act for act in simple if _cures(acts[act](), name)}
        looked += 1
        if not set(kind.repairs) <= cured:
            broken.append(f"{name}: {', '.join(set(kind.repairs) - cured)} does not restore it")
        if wrong := cured - set(kind.repairs) - opening:
            broken.append(f"{name}: {', '.join(sorted(wrong))} restores it")
    return Smelt(looked=looked, broken=tuple(broken))


def _cures(act: Repair, fault: str) -> bool:
    """In every case that the fault shows in: a mode, a call of one zone, a day."""
    kind = discover()[fault]
    for case in cases(kind):
        built = healthy(kind.metering[0], case)
        worse = named(fault, kind.typical).applied_to(built)
        mended = act.applied_to(worse)
        if mended == worse:
            return False
        if mended != built and not _same(observed(mended, case), _sound(kind.metering[0], case)):
            return False
    return True


@lru_cache
def _sound(metering: str, case: str) -> dict[str, float]:
    """What is observed where nothing is wrong."""
    return observed(healthy(metering, case), case)


def _same(one: dict[str, float], other: dict[str, float]) -> bool:
    return all(np.isclose(one[name], other[name], rtol=1e-6, atol=1e-9) for name in other)


def _day(field: Field) -> Smelt:
    """Every ten minutes solved anew, without the grid that the day is read from."""
    del field
    broken = []
    cases = ((), (("supply_leak", 0.3),), (("undercharge", 0.25),), (("strips_on", 4.8),))
    worst = 0.0
    for faults in cases:
        built = Bench().installed(faults=faults)
        day = energy.day(built, HOT, SETPOINT)
        water = moist_air.humidity_ratio(
            day.indoor_temperature, day.indoor_relative_humidity, moist_air.STANDARD_PRESSURE
        )
        around = [
            Conditions(
                outdoor_temperature=float(energy.outdoor_temperature(HOT, hour)),
                outdoor_humidity_ratio=HOT.humidity_ratio,
                indoor_temperature=float(room),
                indoor_humidity_ratio=float(damp),
                solar=float(energy.sun(HOT, hour)),
            )
            for hour, room, damp in zip(day.hours, day.indoor_temperature, water, strict=True)
        ]
        point = steady.solve_many([built] * len(around), around)
        used = float(
            np.sum((point.outdoor_power + point.air_handler_power) * day.run_fraction) * STEP
        )
        worst = max(worst, abs(day.energy / used - 1.0))
        if abs(day.energy / used - 1.0) > 0.005:
            broken.append(f"{faults}: bill off by {day.energy / used - 1.0:.2%}")
        warm = day.indoor_temperature > SETPOINT + 0.3
        if day.run_fraction.max() > 1.0 + 1e-9 or (day.run_fraction[warm] < 0.99).any():
            broken.append(f"{faults}: thermostat and run time disagree")
    looked, beyond = _coldest()
    return Smelt(
        looked=len(cases) + looked,
        broken=(*broken, *beyond),
        figure=f"bill within {worst:.2%}; {looked} cold days",
    )


def _coldest() -> tuple[int, list[str]]:
    """Winter's days of every unit against all its parts around the clock."""
    places = list(product(UNITS, catalogue.METERING, (-5.0, 0.0, 17.0)))
    beyond = []
    for unit, metering, outdoor in places:
        built = catalogue.load_installation(unit=unit, metering=metering)
        used, most = taken(built, outdoor)["total_energy"], most_of_a_day(built)
        if not 0.0 < used < most:
            beyond.append(f"{unit} {metering} at {outdoor:g} °F: {used:.4g} of {most:.4g} kWh")
    return len(places), beyond


def _healthy_spread(field: Field) -> Smelt:
    """Healthy visits as tools show them: no perfect numbers, and not the same twice."""
    del field
    needs = ("return_dry_bulb", "supply_dry_bulb", "liquid_pressure", "liquid_line_temperature")
    shown: dict[str, list[float]] = {"temperature_split": [], "subcooling": []}
    for seed in range(VISITS):
        taken = [
            (n, Reading(measurement=name, technique="", kind="", value=_taken(name, seed, 1)[0]))
            for n, name in enumerate(needs)
        ]
        for item in work_out(taken, "txv", "R-410A"):
            if item.id in shown:
                shown[item.id].append(round(item.value * 1.8, 1))
    cold, split_seen = shown["subcooling"], shown["temperature_split"]
    return figures(
        split_spread=(float(np.std(split_seen)), 0.01, 3.0),
        subcooling_spread=(float(np.std(cold)), 0.01, 4.0),
        perfect_split=(float(np.mean(np.isclose(split_seen, 20.0))), 0.0, 0.2),
        perfect_subcooling=(float(np.mean(np.isclose(cold, 10.0))), 0.0, 0.2),
    )


WHOLE_SMELLS = (
    Smell(number=18, fails_if="two probes the same for ever, smooth trends",
          bar="takes scatter, visits differ, every tool", found=_tools),
    Smell(number=19, fails_if="steady at once", bar="≥ 10 % away at 10 s, within 2 % at 15 min",
          found=_lag),
    Smell(number=27, fails_if="heat does not fall with the weather; frost in the wrong weather",
          bar="62 to 7 °F one way; none at 60 °F, some at 28 °F damp", found=_heating_map),
    Smell(number=28, fails_if="low indoor air in heating leaves the head alone",
          bar="−20 % ⇒ ≥ 20 psi as R-410A shows it", found=_heating_head),
    Smell(number=30, fails_if="an iced coil gives a valid superheat",
          bar="the charge test is refused",
          found=_iced),
    Smell(number=32, fails_if="the repair does not restore, or a wrong one does",
          bar="readings within 1e-6", found=_counterfactual),
    Smell(number=33, fails_if="kWh are not power times run time; run fraction over one",
          bar="within 0.5 %; all of the time wherever it is warm; no cold day beyond its parts",
          found=_day),
    Smell(number=35, fails_if="a healthy house with perfect numbers",
          bar="spread between visits; 20.0 and 10.0 in fewer than a fifth", found=_healthy_spread),
)  # fmt: skip
