"""A winter's day: run time, strips, thermostat and fan, and that its parts agree."""

from dataclasses import replace
from functools import lru_cache
from time import process_time
from typing import Any

import numpy as np
import pytest

from simulator.plant import energy, steady
from simulator.plant.installation import Installation
from simulator.plant.rooms import AIR_DENSITY, AIR_HEAT_CAPACITY
from tests.plant.stand import fahrenheit, installed, winter


def winters_day(high: float, low: float, humidity_ratio: float) -> energy.DayWeather:
    """Between two temperatures in °F, with a low sun."""
    return energy.DayWeather(
        high=fahrenheit(high), low=fahrenheit(low), humidity_ratio=humidity_ratio, noon_sun=300.0
    )


MILD = winters_day(55.0, 42.0, 0.005)
FROSTY = winters_day(38.0, 26.0, 0.003)
COLD = winters_day(30.0, 10.0, 0.002)
DRY = winters_day(45.0, 30.0, 0.0024)
COLD_NIGHT = winters_day(30.0, 15.0, 0.0022)
FOGGY_NIGHT = winters_day(47.0, 32.0, 0.00494)
DAYS = pytest.mark.parametrize("weather", [MILD, FROSTY, COLD], ids=["mild", "frosty", "cold"])
SETTINGS: list[dict[str, float]] = [
    {},
    {"defrost_enabled": 0.0},
    {"strips_with_every_call": 1.0},
    {"emergency_heat": 1.0},
    {"thermostat_offset": 1.5},
    {"fan_always_on": 1.0},
]
EACH = pytest.mark.parametrize("settings", SETTINGS, ids=lambda one: next(iter(one), "as set"))
SETPOINT = fahrenheit(70.0)
SUMMER = energy.DayWeather(high=fahrenheit(95.0), low=fahrenheit(75.0), humidity_ratio=0.014)


def house(metering: str = "txv", **settings: Any) -> Installation:
    """The reference house with its controls set in SI."""
    built = installed(metering)
    return replace(built, controls=replace(built.controls, **settings))


@lru_cache
def found(weather: energy.DayWeather, metering: str = "txv", **settings: float) -> energy.Day:
    """A winter's day, kept between tests."""
    return energy.day(house(metering, **settings), weather, SETPOINT, "heating")


@EACH
@DAYS
def test_the_day_agrees_with_itself(weather: energy.DayWeather, settings: dict[str, float]) -> None:
    """By arithmetic and by definition: parts, run time, no heat beyond the call."""
    day = found(weather, **settings)
    assert day.energy == pytest.approx(sum(day.energy_by_part), rel=1e-12)
    assert day.cost == pytest.approx(sum(day.cost_by_part), rel=1e-12)
    assert min(day.energy_by_part) >= 0.0
    assert ((day.run_fraction >= 0.0) & (day.run_fraction <= 1.0)).all()
    assert day.mean_run_fraction <= day.peak_run_fraction <= 1.0
    held = SETPOINT - settings.get("thermostat_offset", 0.0)
    busy = day.run_fraction > 0.0
    # Sun may warm the rooms between calls; a call never does, past its end.
    assert (day.indoor_temperature[busy] < held + 0.01).all()
    assert abs(day.indoor_temperature[0] - day.indoor_temperature[-1]) < 0.1


@pytest.mark.parametrize("metering", ["txv", "orifice"])
@DAYS
def test_heat_in_is_heat_out(weather: energy.DayWeather, metering: str) -> None:
    """First law over a settled day, with emergency heat: strips give the rooms their loss.

    Of blower and strips, what the ducts let through; within 3 %, since the blower draws in a
    little air of its own and the ducts are asked at one outdoor temperature.
    """
    day = found(weather, metering, emergency_heat=1.0)
    built = house(metering)
    outdoors = energy.outdoor_temperature(weather, day.hours)
    apart = np.asarray(day.indoor_temperature - outdoors)
    air = built.house.natural_infiltration
    loss = (built.house.conductance + AIR_DENSITY * AIR_HEAT_CAPACITY * air) * apart
    gain = built.house.internal_gain + built.house.sun_area * energy.sun(weather, day.hours)
    asked = float((loss - gain).sum()) * 600.0
    around = winter(70.0 - 9.0 / 5.0 * float(apart.mean()))
    running = steady.solve(built, replace(around, auxiliary_call=1.0, compressor_call=0.0))
    passed = running.delivered_sensible / (running.blower_power + running.strip_power)
    assert day.energy * passed == pytest.approx(asked, rel=0.03)
    assert day.compressor_energy == 0.0
    assert day.outdoor_fan_energy == 0.0


def test_strips_join_only_below_the_balance_point() -> None:
    """Common practice, no source: a mild day takes none, a cold one some, less than half."""
    assert found(MILD).strip_energy == 0.0
    cold = found(COLD)
    assert 0.05 * cold.energy < cold.strip_energy < 0.5 * cold.energy
    assert cold.peak_run_fraction == pytest.approx(1.0)
    droop = house().controls.auxiliary_droop
    assert cold.indoor_temperature.min() > SETPOINT - droop - 0.1


def test_the_balance_point_is_where_run_time_becomes_all_of_it() -> None:
    """By definition: a dark day a little warmer is held without strips, a colder one is not."""
    point = energy.balance_point(house(), SETPOINT)
    assert fahrenheit(10.0) < point < fahrenheit(35.0)
    short = {}
    for apart in (-4.0, 4.0):
        steady_day = energy.DayWeather(
            high=point + apart + 0.1, low=point + apart - 0.1, humidity_ratio=0.0017, noon_sun=0.0
        )
        day = energy.day(house(), steady_day, SETPOINT, "heating")
        short[apart] = day.mean_run_fraction
    assert short[-4.0] == pytest.approx(1.0)
    assert short[4.0] < 0.95


def test_a_leaky_house_has_a_higher_balance_point() -> None:
    """By definition of the balance point: more loss, the same heat."""
    built = house()
    worse = replace(built, house=replace(built.house, conductance=built.house.conductance * 1.3))
    assert energy.balance_point(worse, SETPOINT) > energy.balance_point(built, SETPOINT) + 1.0


def test_lockout_holds_the_strips_off() -> None:
    """By definition: rooms fall instead. With an orifice, which is short on this day."""
    free = found(COLD, "orifice")
    locked = found(COLD, "orifice", auxiliary_lockout=fahrenheit(0.0))
    assert locked.strip_energy < free.strip_energy
    assert locked.indoor_temperature.min() < free.indoor_temperature.min() - 0.3


def test_frost_and_defrost_lengthen_the_day() -> None:
    """Common practice, no source: longer runs, strips to temper; none of it when mild."""
    rare = house(defrost_interval=5400.0)
    assert found(FROSTY).strip_energy > 0.0
    assert energy.day(rare, MILD, SETPOINT, "heating").energy == pytest.approx(
        found(MILD).energy, rel=1e-6
    )
    dead = found(FROSTY, defrost_enabled=0.0)
    assert dead.energy > 1.5 * found(FROSTY).energy
    assert dead.strip_energy > 5.0 * found(FROSTY).strip_energy


@pytest.mark.parametrize("metering", ["txv", "orifice"])
@pytest.mark.parametrize("weather", [DRY, COLD_NIGHT], ids=["dry", "cold night"])
def test_a_hasty_defrost_board_costs_the_more_the_hastier(
    metering: str, weather: energy.DayWeather
) -> None:
    """First law: each defrost takes heat from the rooms and leaves it outdoors."""
    waits = (3600.0, 2700.0, 1800.0, 1200.0, 720.0)
    days = [found(weather, metering, defrost_interval=wait) for wait in waits]
    for name in ("mean_run_fraction", "energy", "strip_energy"):
        assert (np.diff([getattr(day, name) for day in days]) > 0.0).all(), name


@pytest.mark.parametrize("metering", ["txv", "orifice"])
def test_fog_about_freezing_forgives_a_hasty_board_half_an_hour(metering: str) -> None:
    """30 minutes suit severe frosting: Zhu and others 2015, as the AixLib library tells it."""
    waits = (3600.0, 1800.0, 1200.0, 720.0)
    days = [found(FOGGY_NIGHT, metering, defrost_interval=wait) for wait in waits]
    energies = [day.energy for day in days]
    assert energies[1] > 0.998 * energies[0]
    assert energies[3] > energies[2] > 1.02 * energies[0]
    assert days[1].mean_run_fraction == pytest.approx(days[0].mean_run_fraction, rel=0.01)


def test_strips_with_every_call_multiply_the_bill_of_a_mild_day() -> None:
    """Common practice, no source: strips at 50 °F, compressor hours fall, the bill doubles."""
    plain, jumped = found(MILD), found(MILD, strips_with_every_call=1.0)
    assert jumped.strip_energy > 2.0 * plain.energy * 0.8
    assert jumped.compressor_energy < 0.7 * plain.compressor_energy
    assert jumped.cost > 2.0 * plain.cost
    assert found(MILD, emergency_heat=1.0).cost > jumped.cost


def test_an_offset_thermostat_holds_other_rooms() -> None:
    """By definition: it reads warmer, so the rooms stay colder, in winter and summer."""
    for offset in (-1.5, 1.5):
        day = found(FROSTY, thermostat_offset=offset)
        held = SETPOINT - offset
        assert day.mean_indoor_temperature == pytest.approx(held, abs=0.3)
    warm, cool = (
        energy.day(house(thermostat_offset=offset), SUMMER, SETPOINT + 3.0) for offset in (0.0, 1.5)
    )
    apart = warm.mean_indoor_temperature - cool.mean_indoor_temperature
    assert apart == pytest.approx(1.5, abs=0.1)
    assert cool.energy > warm.energy


def test_a_fan_left_on_makes_rooms_damp() -> None:
    """3 to 8 points of relative humidity, more on a muggy mild day: common practice, no source."""
    rise = {}
    for weather in (SUMMER, winters_day(79.0, 61.0, 0.010), winters_day(85.0, 70.0, 0.0145)):
        auto, on = (
            energy.day(house(fan_always_on=share), weather, fahrenheit(76.0))
            for share in (0.0, 1.0)
        )
        rise[weather] = on.mean_relative_humidity - auto.mean_relative_humidity
        assert on.blower_energy > 2.0 * auto.blower_energy
        assert (on.run_fraction <= 1.0).all()
    hot, mild, muggy = rise.values()
    assert 0.03 < hot < 0.08
    assert 0.03 < mild < 0.08
    assert hot < muggy < 0.15


def test_a_fan_left_on_runs_all_day() -> None:
    """By definition: blower energy is its power by all the day's seconds, near enough."""
    day = found(MILD, fan_always_on=1.0)
    alone = found(MILD)
    power = alone.blower_energy / (alone.mean_run_fraction * 86400.0)
    assert day.blower_energy == pytest.approx(power * 86400.0, rel=0.05)


@DAYS
def test_a_day_is_quick(weather: energy.DayWeather) -> None:
    """Under a second of one processor, three times what a free one needs: chosen."""
    built = house()
    start = process_time()
    energy.day(built, weather, SETPOINT, "heating")
    assert process_time() - start < 1.0
