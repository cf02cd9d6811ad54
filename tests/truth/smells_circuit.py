"""Smell tests of the refrigerant circuit over the grid (rows 1 to 8, 11, 20, 21, 24, 29, 31)."""

from collections.abc import Iterator

import numpy as np

from simulator.plant import catalogue, standing
from simulator.properties import moist_air, refrigerant
from simulator.properties.refrigerant import Refrigerant
from simulator.quantities.values import Array
from tests.plant.stand import installed, weather
from tests.truth.benches import Bench
from tests.truth.charging_rule import rule_grid
from tests.truth.field import Field
from tests.truth.published_circuit import PSI, WATT
from tests.truth.smell import Smell, Smelt, cells, figures

DEGREE = 1 / 1.8  # one °F in kelvin
EVERYWHERE = np.True_
# How far the EER of a healthy unit may stand above the highest class of the rating default.
BEST_EFFICIENCY = 13.0 + 0.7  # Btu/Wh, 16 SEER, California Title 24 Residential ACM


def _flooded(field: Field) -> Smelt:
    """Flooded is a real loss of superheat: the hot pipe must then stand closer to condensing.

    The row's "discharge line falls" is read as its superheat against that of gas arriving as
    dry as in the healthy unit, at the same two pressures: a trouble that lifts the head lifts
    the condensing temperature under the pipe, and the work as well. A healthy unit within the
    row's own half degree of none floods already. How many pipes are hotter, and how many are
    farther from condensing than in the healthy unit at its own pressures, is told beside it.
    """
    dry, over = field.of("superheat"), _discharge_superheat(field)
    loss = (dry <= 0.0) & field.running
    flooded = loss & (dry[field.healthy] > 0.5 * DEGREE)
    hotter = int((flooded & (field.change("discharge_temperature") >= 0.0)).sum())
    farther = int((loss & (dry[field.healthy] > 0.0) & (over >= over[field.healthy])).sum())
    return cells(
        field,
        EVERYWHERE,
        (dry < -0.5 * DEGREE) | (flooded & (over >= _as_dry_as_healthy(field))),
        figure=f"{int(flooded.sum()):,} flooded; the pipe itself is no colder in {hotter:,}, "
        f"farther from condensing than at the healthy unit's pressures in {farther:,}",
    )


def _discharge_superheat(field: Field) -> Array:
    """Over the dew point at the discharge pressure, air in the circuit included."""
    hot, pressure = field.of("discharge_temperature"), field.of("discharge_pressure")
    dew = np.empty_like(hot)
    for fluid, own in _fluids(field):
        dew[own] = fluid.dew_temperature(pressure[own])
    return hot - dew


def _as_dry_as_healthy(field: Field) -> Array:
    """Discharge superheat at a cell's pressures, had its gas the healthy unit's superheat.

    That of the healthy unit, in proportion to ideal compression, from gas properties alone.
    """
    at, healthy = field.healthy, _discharge_superheat(field)[field.healthy]
    dry = np.maximum(field.of("superheat")[at], 0.0)
    ideal, ideal_healthy = np.ones_like(dry), np.ones_like(dry)
    low, high = field.of("suction_pressure"), field.of("discharge_pressure")
    for fluid, own in _fluids(field):
        ideal[own] = _ideal_superheat(fluid, dry[own], low[own], high[own])
        ideal_healthy[own] = _ideal_superheat(fluid, dry[own], low[at][own], high[at][own])
    return np.asarray(healthy * ideal / ideal_healthy)


def _ideal_superheat(fluid: Refrigerant, dry: Array, low: Array, high: Array) -> Array:
    """Of gas compressed without loss from one pressure and superheat to another pressure."""
    line, port = fluid.saturation(np.log(low)), fluid.saturation(np.log(high))
    gas = fluid.vapour(np.log(low), line, dry * line.vapour_heat_capacity)
    rise = fluid.vapour_enthalpy_above_dew(np.log(high), port, gas.entropy - port.vapour_entropy)
    return np.asarray(fluid.vapour(np.log(high), port, rise).temperature - port.dew_temperature)


def _fluids(field: Field) -> Iterator[tuple[Refrigerant, Array]]:
    """Each unit's fluid and its cells."""
    for unit in field.units:
        built = catalogue.load_installation(unit=unit).unit
        yield refrigerant.load(built.refrigerant), field.are(unit=unit)


def _coil_below_air(field: Field) -> Smelt:
    boiling = field.of("evaporating_temperature")
    air = np.minimum(
        field.of("coil_leaving_temperature"), field.of("air_handler_return_temperature")
    )
    return cells(field, EVERYWHERE, boiling >= air)


def _suction_line(field: Field) -> Smelt:
    entering = field.of("air_handler_return_temperature")
    warmest = np.maximum(entering, field.of("outdoor_temperature"))
    outlet, line = field.of("evaporator_outlet_temperature"), field.of("suction_line_temperature")
    return cells(field, EVERYWHERE, (outlet > entering) | (line > warmest + 5.0 * DEGREE))


def _over_ambient(field: Field) -> Smelt:
    over = field.of("condensing_temperature") - field.of("outdoor_temperature")
    loaded = field.of("gross_capacity") > 0.5 * field.nominal
    return cells(field, loaded, over < 5.0 * DEGREE)


def _liquid_line(field: Field) -> Smelt:
    approach = field.of("liquid_line_temperature") - field.of("outdoor_temperature")
    return cells(field, EVERYWHERE, approach < 0.0)


def _charge_slopes(field: Field) -> Smelt:
    low = (("undercharge", 0.05),)
    high = (("overcharge", 0.05),)
    each = {}
    for unit in field.units:
        valve, orifice = Bench(unit), Bench(unit, "orifice")
        subcooling = valve.at(faults=high).subcooling - valve.at(faults=low).subcooling
        superheat = orifice.at(faults=high).superheat - orifice.at(faults=low).superheat
        each[f"{unit} valve subcooling"] = (float(subcooling) * 0.18, 0.4, 1.0)
        each[f"{unit} orifice superheat"] = (float(superheat) * 0.18, -1.2, -0.5)
    return figures(**each)


def _valve_hides_charge(field: Field) -> Smelt:
    superheat = np.abs(field.change("superheat"))
    charge = field.are(metering="txv") & (
        field.are(fault="undercharge") | field.are(fault="overcharge")
    )
    left = field.of("subcooling") > 2.0 * DEGREE
    return cells(field, charge & left, superheat >= 2.0 * DEGREE)


def _rule_slopes(field: Field) -> Smelt:
    """By least squares over the rule's own cells with a superheat to measure."""
    each = {}
    for unit in field.units:
        wet, outdoor = rule_grid(Bench(unit, "orifice")).slopes()
        each[f"{unit} per °F wet bulb"] = (wet, 1.5, 2.2)
        each[f"{unit} per °F outdoors"] = (outdoor, -0.8, -0.4)
    return figures(**each)


def _energy(field: Field) -> Smelt:
    # Air-side heat of the coil against the circuit's own.
    inlet, outlet = (
        moist_air.enthalpy(field.of(f"{at}_temperature"), field.of(f"{at}_humidity_ratio"))
        for at in ("air_handler_return", "coil_leaving")
    )
    air = field.of("air_mass_flow") * (inlet - outlet)
    taken = field.of("gross_capacity")
    given, rejected = taken + field.of("compressor_power"), field.of("heat_rejected")
    # What the suction line takes up is heat the condenser rejects too, and all there is beside a
    # coil shut by ice; the row's own 6 % are left to what the shell gives to the air around it.
    whole = given + field.of("suction_line_gain")
    circuit = np.abs(rejected - whole) > 0.06 * whole
    apart = int(((np.abs(rejected - given) > 0.06 * given) & field.running).sum())
    return cells(
        field,
        EVERYWHERE,
        circuit | (np.abs(air - taken) > 0.15 * taken),
        figure=f"beyond 6 % without the suction line's gain {apart:,}",
    )


def _amps(field: Field) -> Smelt:
    change = field.change("compressor_current")
    lost, dirty = field.are(fault="undercharge"), field.are(fault="dirty_outdoor_coil")
    wrong = np.where(lost, change > 0.0, change < 0.0)
    floods = field.of("superheat")[field.healthy] <= 0.0
    beside = int((lost & wrong & ~floods & field.running).sum())
    return cells(
        field, lost | dirty, wrong, figure=f"where the healthy unit does not flood {beside:,}"
    )


def _strips(field: Field) -> Smelt:
    moved = np.maximum(np.abs(field.change("superheat")), np.abs(field.change("subcooling")))
    return cells(field, field.are(fault="strips_on"), moved > 0.2 * DEGREE)


def _air_in_circuit(field: Field) -> Smelt:
    """Dalton: running, gauge and apparent subcooling rise; standing, more than saturation."""
    fault = field.are(fault="non_condensables")
    flat = (field.change("liquid_pressure") <= 0.0) | (field.change("subcooling") <= 0.0)
    running = cells(field, fault, flat)
    rest = standing.at_rest(installed(non_condensables=30.0), weather(80.0))
    saturated = refrigerant.load("R-410A").dew_pressure(np.array([rest.outdoor_temperature]))
    excess = float((rest.suction_pressure - saturated[0]) / PSI)
    broken = running.broken + (() if excess > 3.0 else (f"standing excess {excess:.2g} psi",))
    return Smelt(
        looked=running.looked + 1,
        broken=broken,
        figure=f"standing {excess:.3g} psi above saturation",
    )


def _restriction(field: Field) -> Smelt:
    rating = np.array([field.skies[key[4]] == (95.0, 67.0) for key in field.keys])
    fault = field.are(fault="liquid_line_restriction", share=1.0) & rating
    drop = field.of("liquid_line_temperature") - field.of("liquid_after_drier_temperature")
    moved = np.maximum(field.change("superheat"), field.change("subcooling"))
    return cells(field, fault, (drop < 2.0 * DEGREE) | (moved < 4.0 * DEGREE))


def _not_too_good(field: Field) -> Smelt:
    """At the rating point; a fault that changes the air entering the coil changes the point."""
    at_rating = np.array([field.skies[key[4]] == (95.0, 67.0) for key in field.keys])
    entering = moist_air.enthalpy(
        field.of("air_handler_return_temperature"), field.of("air_handler_return_humidity_ratio")
    )
    same = np.abs(entering - entering[field.healthy]) < 500.0
    net = field.of("gross_capacity") - field.of("blower_power")
    power = field.of("outdoor_power") + field.of("blower_power")
    best = np.array([not key[2] for key in field.keys]) & (net / power * WATT > BEST_EFFICIENCY)
    big = field.of("gross_capacity") > 1.12 * field.nominal
    found = cells(field, at_rating & same, big | best)
    cold = [
        (unit, metering)
        for unit in field.units
        for metering in catalogue.METERING
        if (p := Bench(unit, metering).heating(17.0)).gross_capacity > 6.0 * p.outdoor_power
    ]
    return Smelt(
        looked=found.looked + 2 * len(field.units),
        broken=found.broken + tuple(f"COP above 6 at 17 °F: {unit} {kind}" for unit, kind in cold),
    )


CIRCUIT_SMELLS = (
    Smell(number=1, fails_if="superheat below zero, or none while the discharge line stays hot",
          bar="superheat ≥ −0.5 °F; flooded ⇒ discharge closer to condensing than dry",
          found=_flooded),
    Smell(number=2, fails_if="coil boils above the air it cools",
          bar="evaporating < leaving air < return air", found=_coil_below_air),
    Smell(number=3, fails_if="suction line warmer than entering air and line gain",
          bar="≤ warmer of coil entering and outdoor air + 5 °F", found=_suction_line),
    Smell(number=4, fails_if="condensing close to or below outdoor air",
          bar="≥ 5 °F over, at half load or more", found=_over_ambient),
    Smell(number=5, fails_if="liquid line colder than outdoor air",
          bar="approach ≥ 0 at the service valve", found=_liquid_line),
    Smell(number=6, fails_if="subcooling (valve) or superheat (orifice) blind to charge",
          bar="0.4 to 1 and −0.5 to −1.2 °F per 1 % of charge", found=_charge_slopes),
    Smell(number=7, fails_if="valve superheat follows charge before subcooling is gone",
          bar="within 2 °F while subcooling > 2 °F", found=_valve_hides_charge),
    Smell(number=8, fails_if="orifice superheat constant over weather",
          bar="1.5 to 2.2 per °F WB, −0.4 to −0.8 per °F outdoors", found=_rule_slopes),
    Smell(number=11, fails_if="energy balance broken",
          bar="condenser = coil + line + compressor ±6 %; air = refrigerant side ±15 %",
          found=_energy),
    Smell(number=20, fails_if="amps rise with refrigerant lost, or fall with a dirty condenser",
          bar="signs", found=_amps),
    Smell(number=21, fails_if="strips change superheat or subcooling in cooling",
          bar="within 0.2 °F", found=_strips),
    Smell(number=24, fails_if="air in the circuit without its pressure",
          bar="gauge and subcooling up; standing above saturation", found=_air_in_circuit),
    Smell(number=29, fails_if="restriction cold at the drier and nowhere else",
          bar="largest, at rating: drop ≥ 2 °F, superheat or subcooling up ≥ 4 °F",
          found=_restriction),
    Smell(number=31, fails_if="better than any rating",
          bar="≤ 112 % of nominal, EER ≤ 13.7 net, COP ≤ 6 at 17 °F", found=_not_too_good),
)  # fmt: skip
