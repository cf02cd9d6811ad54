"""Shorthand for plant tests: the reference installation under named conditions."""

from functools import lru_cache

from simulator.faults._catalogue import named
from simulator.plant import catalogue, sizing, steady
from simulator.plant.conditions import Conditions, from_wet_bulb
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
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


def installed(metering: str = "txv", airflow: float = 1.0, **faults: float) -> Installation:
    """The reference installation with faults in their own units."""
    built = catalogue.load_installation(metering=metering)
    if airflow != 1.0:
        built = sizing.at_airflow(built, weather(), airflow)
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
