"""A day in the house: run time, the bill, and what a duct leak does to both."""

from dataclasses import replace

import numpy as np
import pytest

from simulator.plant import energy
from simulator.plant.catalogue import load_installation
from tests.plant.stand import fahrenheit, installed

MILD = energy.DayWeather(high=fahrenheit(79), low=fahrenheit(61), humidity_ratio=0.010)
HOT = energy.DayWeather(high=fahrenheit(95), low=fahrenheit(75), humidity_ratio=0.014)
SETPOINT = fahrenheit(76)


def test_half_the_supply_air_lost_doubles_run_time(published: dict[str, dict[str, str]]) -> None:
    """On a mild day: the healthy unit peaks below 0.6 and the leaky one keeps up."""
    row = published["P31"]
    tight = energy.day(load_installation(), MILD, SETPOINT)
    leaky = energy.day(installed(supply_leak=0.5), MILD, SETPOINT)
    assert tight.peak_run_fraction <= 0.6
    ratio = leaky.mean_run_fraction / tight.mean_run_fraction
    assert float(row["low"]) <= ratio <= float(row["high"])


def test_energy_is_power_times_run_time() -> None:
    day = energy.day(load_installation(), HOT, SETPOINT)
    total = day.compressor_energy + day.outdoor_fan_energy + day.blower_energy + day.strip_energy
    price = load_installation().house.electricity_price
    assert day.cost_per_month == pytest.approx(30 * total * price, rel=1e-12)
    hours = day.mean_run_fraction * 24.0
    assert 200.0 * 3600 * hours == pytest.approx(day.outdoor_fan_energy, rel=0.02)
    assert day.strip_energy == 0.0


def test_the_thermostat_holds_while_it_can() -> None:
    day = energy.day(load_installation(), HOT, SETPOINT)
    assert day.peak_run_fraction < 1.0
    assert day.indoor_temperature.max() < SETPOINT + 0.05
    assert (day.run_fraction <= 1.0).all()
    assert ((day.indoor_relative_humidity > 0.3) & (day.indoor_relative_humidity < 0.65)).all()


def test_strips_run_the_bill_up() -> None:
    plain = energy.day(load_installation(), HOT, SETPOINT)
    warm = energy.day(installed(strips_on=4.8), HOT, SETPOINT)
    assert warm.cost_per_month > 2.0 * plain.cost_per_month
    assert warm.strip_energy > warm.compressor_energy


def test_a_hotter_house_needs_more() -> None:
    built = load_installation()
    leaky = replace(built, house=replace(built.house, conductance=built.house.conductance * 1.3))
    assert (
        energy.day(leaky, HOT, SETPOINT).mean_run_fraction
        > energy.day(built, HOT, SETPOINT).mean_run_fraction
    )


def test_the_day_repeats_itself() -> None:
    day = energy.day(load_installation(), HOT, SETPOINT)
    assert np.abs(day.indoor_temperature[0] - day.indoor_temperature[-1]) < 0.1
