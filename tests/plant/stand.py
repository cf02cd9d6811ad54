"""Shorthand for plant tests: the reference installation under named conditions, air twice."""

from dataclasses import replace
from functools import lru_cache
from typing import Any, NamedTuple

import numpy as np
import psychrolib

from simulator.faults._catalogue import named
from simulator.plant import case as cases
from simulator.plant import catalogue, sizing, steady
from simulator.plant.case import Settled
from simulator.plant.conditions import Conditions, from_wet_bulb
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.plant.report import operating_point
from simulator.plant.stacking import chosen
from simulator.properties import moist_air
from simulator.quantities.shown import from_display


def fahrenheit(number: float) -> float:
    """Degrees Fahrenheit in kelvin."""
    return from_display(number, "temperature")


def weather(outdoor: float = 95.0, dry: float = 80.0, wet: float = 67.0) -> Conditions:
    """Conditions in °F."""
    return from_wet_bulb(
        outdoor=fahrenheit(outdoor),
        return_temperature=fahrenheit(dry),
        return_wet_bulb=fahrenheit(wet),
    )


def winter(outdoor: float = 47.0, dry: float = 70.0, humidity: float = 0.7) -> Conditions:
    """Heating conditions in °F, the outdoor humidity relative."""
    pressure = 101325.0
    return Conditions(
        outdoor_temperature=fahrenheit(outdoor),
        outdoor_humidity_ratio=float(
            moist_air.humidity_ratio(fahrenheit(outdoor), humidity, pressure)
        ),
        indoor_temperature=fahrenheit(dry),
        indoor_humidity_ratio=0.006,
        solar=0.0,
        mode="heating",
    )


def installed(metering: str = "txv", airflow: float = 1.0, **faults: float) -> Installation:
    """The reference installation with faults in their own units."""
    built = sizing.at_airflow(catalogue.load_installation(metering=metering), weather(), airflow)
    for name, amount in faults.items():
        built = named(name, amount).applied_to(built)
    return built


@lru_cache
def settled(
    metering: str = "txv",
    outdoor: float = 95.0,
    wet: float = 67.0,
    airflow: float = 1.0,
    faults: tuple[tuple[str, float], ...] = (),
) -> OperatingPoint:
    """The settled state, kept between tests."""
    return steady.solve(installed(metering, airflow, **dict(faults)), weather(outdoor, wet=wet))


def faulty(
    metering: str = "txv",
    motor: str = "constant_torque",
    zone: str | None = None,
    **faults: float,
) -> Installation:
    """Another motor, other surroundings of the ducts, faults in their own units."""
    built = catalogue.load_installation(metering=metering, motor=motor, zone=zone)
    for name, amount in faults.items():
        built = named(name, amount).applied_to(built)
    return built


class Worked(NamedTuple):
    """A settled, or an unsettled, installation and all that went into it."""

    built: Installation
    around: Conditions
    unknowns: Any
    point: OperatingPoint


MOVED = (0.1, -0.05, 0.08, 0.05, 0.15, 1.5, 0.5)


def worked(built: Installation, around: Conditions, *, settled: bool = True) -> Worked:
    """Settle; or report a guess well off the solution as though it were the solution."""
    held = cases.prepared(built, around)
    # A good guess nearly is the solution, so it is moved away: pressures, shares, flow, air.
    guess = steady.first_guess(held, 1) + np.array(MOVED)[:, None]
    yes, no = np.array([True]), np.array([False])
    outcome = steady.settle(held, 1) if settled else Settled(guess, yes, np.zeros(1), no, no)
    point = chosen(operating_point(held, outcome), 0)
    assert point.state == "running"
    return Worked(built, around, outcome.unknowns[:, 0], point)


CASES: dict[str, tuple[Installation, Conditions]] = {
    "valve": (faulty(), weather()),
    "orifice": (faulty(metering="orifice"), weather(85.0, wet=64.0)),
    "leaky ducts": (faulty(return_leak=0.15, supply_leak=0.2), weather()),
    "dry coil": (faulty(), weather(100.0, dry=84.0, wet=60.0)),
    "crawl space, slot open": (
        faulty(motor="psc", zone="crawl_space", open_filter_slot=30.0, supply_leak=0.1),
        weather(80.0, dry=76.0, wet=64.0),
    ),
    "garage, strips, thin air": (
        faulty(zone="garage", strips_on=4.8, loaded_filter=6.0, return_leak=0.1),
        replace(weather(), pressure=84000.0, voltage=225.0, solar=300.0),
    ),
    "dirty outdoors, overcharged": (faulty(dirty_outdoor_coil=0.3, overcharge=0.1), weather(90.0)),
    "air and restriction": (
        faulty(non_condensables=25.0, liquid_line_restriction=0.1, zone="basement"),
        weather(),
    ),
}


psychrolib.SetUnitSystem(psychrolib.SI)


def air_heat(temperature: float, humidity: float) -> float:
    """Enthalpy of moist air by PsychroLib. [J/kg]"""
    return float(psychrolib.GetMoistAirEnthalpy(temperature - 273.15, humidity))


def dry_air(temperature: float, humidity: float, pressure: float) -> float:
    """Dry air in a volume by PsychroLib. [kg/m³]"""
    return 1.0 / float(psychrolib.GetMoistAirVolume(temperature - 273.15, humidity, pressure))


def air_capacity(humidity: float) -> float:
    """Heat capacity of moist air by PsychroLib, from two enthalpies. [J/(kg K)]"""
    return (air_heat(310.0, humidity) - air_heat(290.0, humidity)) / 20.0


def air_mass_flow(now: Worked) -> float:
    """Dry air through the coil, from the volume flow at room density. [kg/s]"""
    around = now.around
    room = (around.indoor_temperature, around.indoor_humidity_ratio, around.pressure)
    return float(now.point.airflow) * dry_air(*room)
