"""Energy, mass and charge close, alone and over a random sample."""

from dataclasses import replace

import numpy as np
import pytest

from simulator.plant import catalogue, steady
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.properties import moist_air
from tests.plant.stand import fahrenheit, installed, weather

SAMPLE = 2000
STATES = {"running", "high_pressure_trip", "low_pressure_trip"}


def random_installation(chance: np.random.Generator, metering: str) -> Installation:
    """Charge, airflows, restriction, valve leak and duct leaks drawn over the field range."""
    built = catalogue.load_installation(metering=metering)
    unit = built.unit
    restriction = chance.uniform(0.0, 0.5) * unit.rated_pressure_difference
    worn = replace(
        unit,
        charge=unit.charge * chance.uniform(0.6, 1.4),
        blower=replace(unit.blower, torque_fraction=chance.uniform(0.4, 1.3) ** 2),
        outdoor_coil=replace(unit.outdoor_coil, blocked_fraction=chance.uniform(0.0, 0.6)),
        lines=replace(unit.lines, restriction=restriction * (chance.random() < 0.5)),
        compressor=replace(
            unit.compressor, leak_fraction=chance.uniform(0.0, 0.5) * (chance.random() < 0.5)
        ),
    )
    ducts = replace(
        built.ducts, supply_leak=chance.uniform(0.0, 0.5), return_leak=chance.uniform(0.0, 0.5)
    )
    return replace(built, unit=worn, ducts=ducts)


def random_conditions(chance: np.random.Generator) -> Conditions:
    """Outdoor 55 to 115 °F, indoor 65 to 90 °F at 30 to 70 % relative humidity."""
    outdoor, indoor = fahrenheit(chance.uniform(55, 115)), fahrenheit(chance.uniform(65, 90))
    damp = chance.uniform(0.3, 0.7)
    return Conditions(
        outdoor_temperature=outdoor,
        outdoor_humidity_ratio=float(moist_air.humidity_ratio(outdoor, 0.4, 101325.0)),
        indoor_temperature=indoor,
        indoor_humidity_ratio=float(moist_air.humidity_ratio(indoor, damp, 101325.0)),
    )


@pytest.fixture(scope="module")
def sample() -> tuple[list[Installation], OperatingPoint]:
    """Random scenarios, half of each metering device."""
    chance = np.random.default_rng(410)
    built = [
        random_installation(chance, "txv" if index % 2 else "orifice") for index in range(SAMPLE)
    ]
    return built, steady.solve_many(built, [random_conditions(chance) for _ in built])


def test_nearly_all_scenarios_settle_or_trip_by_name(
    sample: tuple[list[Installation], OperatingPoint],
) -> None:
    _, point = sample
    known = np.isin(point.state, sorted(STATES))
    assert known.mean() >= 0.995


def test_no_scenario_is_silently_wrong(
    sample: tuple[list[Installation], OperatingPoint],
) -> None:
    built, point = sample
    running = np.asarray(point.state) == "running"
    balance = energy_imbalance(point)
    assert np.abs(balance[running]).max() < 1e-6
    charge = np.array([item.unit.charge for item in built])
    assert np.abs(np.asarray(point.refrigerant_charge) / charge - 1.0)[running].max() < 1e-6
    assert (np.asarray(point.superheat)[running] >= 0.0).all()
    assert (np.asarray(point.condensing_temperature) > np.asarray(point.outdoor_temperature))[
        running
    ].all()
    assert (
        np.asarray(point.evaporating_temperature) < np.asarray(point.air_handler_return_temperature)
    )[running].all()
    assert (
        np.asarray(point.supply_plenum_humidity_ratio)
        <= np.asarray(point.air_handler_return_humidity_ratio) + 1e-12
    )[running].all()


def energy_imbalance(point: OperatingPoint) -> np.ndarray:
    """First law over the refrigerant circuit, relative to the heat rejected."""
    into = (
        np.asarray(point.gross_capacity)
        + np.asarray(point.suction_line_gain)
        + np.asarray(point.compressor_power)
        - np.asarray(point.compressor_shell_loss)
    )
    rejected = np.asarray(point.heat_rejected)
    return (into - rejected) / np.where(rejected == 0.0, 1.0, rejected)


@pytest.mark.parametrize("metering", ["txv", "orifice"])
def test_air_side_and_refrigerant_side_agree(metering: str) -> None:
    point = steady.solve(installed(metering, return_leak=0.15, supply_leak=0.2), weather())
    entering = moist_air.enthalpy(
        point.air_handler_return_temperature, point.air_handler_return_humidity_ratio
    )
    leaving = moist_air.enthalpy(point.coil_leaving_temperature, point.coil_leaving_humidity_ratio)
    air_side = point.air_mass_flow * (entering - leaving)
    assert float(air_side) == pytest.approx(float(point.gross_capacity), rel=1e-6)


def test_blower_and_strips_heat_the_supply_air() -> None:
    point = steady.solve(installed(strips_on=4.8), weather())
    before = moist_air.enthalpy(point.coil_leaving_temperature, point.coil_leaving_humidity_ratio)
    after = moist_air.enthalpy(point.supply_plenum_temperature, point.supply_plenum_humidity_ratio)
    assert float(point.air_mass_flow * (after - before)) == pytest.approx(
        float(point.air_handler_power), rel=1e-6
    )


def test_return_leak_mixes_by_mass_and_enthalpy(published: dict[str, dict[str, str]]) -> None:
    """The mixing that the plant does, at the published attic state."""
    from simulator.plant import balance, case
    from simulator.plant.zone_balance import ZoneAir

    wet = moist_air.humidity_ratio_from_wet_bulb(fahrenheit(75), fahrenheit(63), 101325.0)
    rooms = replace(weather(), indoor_temperature=fahrenheit(75), indoor_humidity_ratio=float(wet))
    built = installed()
    ducts = replace(built.ducts, return_leak=0.15, return_conductance=0.0)
    attic = fahrenheit(120)
    air = ZoneAir(attic, moist_air.humidity_ratio(attic, 0.17, 101325.0))
    mixed = balance.entering_coil(case.prepared(replace(built, ducts=ducts), rooms), air)
    dry = float(mixed.temperature) * 1.8 - 459.67
    bulb = float(moist_air.wet_bulb(mixed.temperature, mixed.humidity_ratio, 101325.0)) * 1.8
    for row, value in (("P15", dry), ("P16", bulb - 459.67)):
        limits = published[row]
        assert float(limits["low"]) <= value <= float(limits["high"]), limits["source"]


def test_solution_does_not_depend_on_the_start() -> None:
    from simulator.plant import case

    held = case.prepared(installed("orifice", undercharge=0.15), weather())
    usual = steady.settle(held, 1)
    start = steady.first_guess(held, 1)
    start[:5] += np.array([[-0.2], [0.15], [0.2], [-0.1], [-0.3]])
    other = steady.settle(held, 1, start)
    assert other.converged.all()
    assert np.allclose(usual.unknowns, other.unknowns, atol=1e-5)


def test_extreme_head_trips_by_name() -> None:
    point = steady.solve(installed(dirty_outdoor_coil=0.7, overcharge=0.5), weather(118.0))
    assert point.state == "high_pressure_trip"
    assert point.compressor_current == 0.0


def test_electrical_readings_agree() -> None:
    point = steady.solve(installed(), weather())
    watts = point.voltage * point.compressor_current * point.compressor_power_factor
    assert float(watts) == pytest.approx(float(point.compressor_power), rel=1e-9)
    assert point.outdoor_power == pytest.approx(
        float(point.compressor_power) + float(point.outdoor_fan_power), rel=1e-12
    )
