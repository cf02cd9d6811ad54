"""Zones with their own balance, and both motor laws."""

from dataclasses import replace

import numpy as np
import pytest

from simulator.components import blower
from simulator.faults._catalogue import named
from simulator.plant import air_path, sizing, steady
from simulator.plant.catalogue import METERING, load_installation
from simulator.plant.operating_point import OperatingPoint
from tests.plant.stand import weather

ZONES = ("attic", "crawl_space", "garage", "basement")


def settled(zone: str, **faults: float) -> OperatingPoint:
    """The reference house with its ducts in another zone."""
    built = load_installation(zone=zone)
    for name, amount in faults.items():
        built = named(name, amount).applied_to(built)
    return steady.solve(built, weather())


def test_zones_differ_as_they_should() -> None:
    """A vented attic in the sun is hottest, a basement coolest (common practice, no source)."""
    air = {zone: float(settled(zone).zone_temperature) for zone in ZONES}
    assert air["attic"] > air["garage"] > air["crawl_space"] > air["basement"]
    assert air["attic"] * 1.8 - 459.67 > 110.0


@pytest.mark.parametrize("zone", ZONES)
def test_a_supply_leak_cools_its_zone_and_pulls_on_the_house(zone: str) -> None:
    tight, leaky = settled(zone), settled(zone, supply_leak=0.25)
    assert leaky.zone_temperature < tight.zone_temperature
    assert leaky.house_pressure < tight.house_pressure - 0.5
    assert leaky.delivered_capacity < 0.8 * tight.delivered_capacity
    back = settled(zone, return_leak=0.25)
    assert back.house_pressure > tight.house_pressure + 0.5


def test_a_crawl_space_return_leak_hides_from_the_thermometer() -> None:
    """It shows in humidity, not in temperature (common practice, no source)."""
    tight, leaky = settled("crawl_space"), settled("crawl_space", return_leak=0.15)
    warmed = leaky.air_handler_return_temperature - tight.air_handler_return_temperature
    assert abs(float(warmed)) < 1.0
    assert leaky.air_handler_return_humidity_ratio > tight.air_handler_return_humidity_ratio
    assert leaky.condensate_rate > tight.condensate_rate


def test_both_motors_reach_rated_airflow() -> None:
    for motor in ("constant_torque", "psc"):
        path = air_path.settle(load_installation(motor=motor), weather())
        assert float(path.airflow) == pytest.approx(0.5663, rel=0.02)


def test_an_induction_motor_gives_way_more() -> None:
    """Against a filter loaded sixfold; the electronic motor keeps its torque and speeds up."""
    kept = {}
    for motor in ("constant_torque", "psc"):
        built = load_installation(motor=motor)
        worse = replace(built, ducts=replace(built.ducts, filter_loading=6.0))
        clean, loaded = (air_path.settle(item, weather()) for item in (built, worse))
        kept[motor] = float(loaded.airflow / clean.airflow)
        assert loaded.blower_speed > clean.blower_speed
        if motor == "psc":
            assert loaded.blower_power < clean.blower_power
    assert kept["psc"] < kept["constant_torque"] < 1.0


def test_blower_current_is_that_of_its_kind() -> None:
    """P32: 1.0 to 2.6 A for a constant-torque motor at 240 V (common practice, no source)."""
    point = steady.solve(load_installation(), weather())
    assert 1.0 <= float(point.blower_current) <= 2.6


def test_fan_laws_hold_over_speed() -> None:
    """AMCA 201: flow follows speed, pressure its square, on a fixed square-law system."""
    motor = load_installation().unit.blower
    slow = replace(motor, torque_fraction=0.64)
    fast_point = blower.run_against(motor, 600.0, 0.0, 1.2)
    slow_point = blower.run_against(slow, 600.0, 0.0, 1.2)
    assert float(slow_point.speed / fast_point.speed) == pytest.approx(0.8, rel=1e-9)
    assert float(slow_point.airflow / fast_point.airflow) == pytest.approx(0.8, rel=1e-9)
    assert float(slow_point.pressure_rise / fast_point.pressure_rise) == pytest.approx(
        0.64, rel=1e-9
    )


@pytest.mark.parametrize("asked", [1.2, 3.0])
def test_an_induction_blower_is_set_no_faster_than_its_field(asked: float) -> None:
    """Six poles at 60 Hz turn 125.7 rad/s; what lies beyond is not reached, by any power."""
    built = load_installation(unit="siskin_18")
    own = steady.solve(built, weather())
    most = steady.solve(sizing.at_airflow(built, weather(), asked), weather())
    assert most.blower_speed < 125.67
    assert own.airflow < most.airflow < asked * built.unit.rated_airflow
    assert most.blower_power < 1.5 * own.blower_power


@pytest.mark.parametrize("metering", METERING)
@pytest.mark.parametrize("unit", ["quail_36", "heron_30"])
def test_a_dead_outdoor_fan_trips_at_any_weather(unit: str, metering: str) -> None:
    """Common practice, no source: the high-pressure switch opens within minutes."""
    built = named("slow_outdoor_fan", 1.0).applied_to(
        load_installation(unit=unit, metering=metering)
    )
    around = [weather(outdoor, wet=wet) for outdoor in (65.0, 95.0) for wet in (55.0, 72.0)]
    point = steady.solve_many([built] * len(around), around)
    assert set(point.state) == {"high_pressure_trip"}


UNITS = ("quail_36", "siskin_18", "martlet_24", "heron_30", "dunlin_48", "bittern_60")


@pytest.mark.parametrize("unit", UNITS)
def test_no_motor_runs_away_against_ice_or_shut_dampers(unit: str) -> None:
    """Electronic motors to 1,500 rpm (from memory), induction motors below their field.

    At its ceiling an electronic motor gives the wheel's torque, by definition less than its
    full one.
    """
    built = load_installation(unit=unit)
    coil = replace(built.unit.indoor_coil, ice=1.0)
    iced = replace(built, unit=replace(built.unit, indoor_coil=coil))
    shut = tuple(0.02 for _ in built.ducts.damper_openings)
    closed = replace(built, ducts=replace(built.ducts, damper_openings=shut))
    field = float(built.unit.blower.synchronous_speed)
    motor, free = built.unit.blower, air_path.settle(built, weather())
    for worse in (iced, closed):
        path = air_path.settle(worse, weather())
        top = field if field > 0.0 else 1500.0 * np.pi / 30.0
        assert free.blower_speed < path.blower_speed <= top
        assert path.airflow < 0.2 * free.airflow
        if field == 0.0:
            rotor = (path.blower_power - motor.standby_power) * motor.motor_efficiency
            moved = path.airflow / (path.blower_speed * motor.wheel_diameter**3)
            density = path.mass_flow / path.airflow
            needed = blower.wheel_torque(motor.wheel_diameter, moved, path.blower_speed, density)
            assert rotor / path.blower_speed == pytest.approx(float(needed), rel=1e-6)
            assert needed < motor.set_torque


def test_below_its_ceiling_a_motor_gives_all_its_torque() -> None:
    """By definition of a constant-torque motor: power is torque times speed over efficiency."""
    motor = load_installation().unit.blower
    point = blower.run_against(motor, 600.0, 0.0, 1.2)
    rotor = float(motor.set_torque * point.speed / motor.motor_efficiency)
    assert float(point.power) == pytest.approx(motor.standby_power + rotor, rel=1e-6)
