"""The rooms after a repair, and a day on a mountain."""

from dataclasses import replace

import numpy as np
import pytest

from simulator.faults import _catalogue as faults
from simulator.plant import catalogue, energy
from simulator.plant.energy import DayWeather
from simulator.plant.pull_down import pull_down
from simulator.plant.rooms import STEP
from simulator.properties import moist_air
from tests.plant.stand import fahrenheit

SUMMER = DayWeather(high=fahrenheit(95.0), low=fahrenheit(75.0), humidity_ratio=0.0135)
WINTER = DayWeather(
    high=fahrenheit(30.0), low=fahrenheit(15.0), humidity_ratio=0.0022, noon_sun=300.0
)
SETPOINT = fahrenheit(76.0)


def test_it_starts_where_the_fault_left_the_rooms_and_ends_at_the_setpoint() -> None:
    """Common practice, no source: a sound unit wins back a warm house within the evening."""
    healthy = catalogue.load_installation()
    broken = energy.day(faults.named("supply_leak", 0.4).applied_to(healthy), SUMMER, SETPOINT)
    found = pull_down(healthy, broken, SUMMER, SETPOINT)
    assert found.repaired[0] == found.unrepaired[0] > SETPOINT + 1.0
    assert found.minutes[1] == STEP / 60.0
    until = found.minutes_until_held()
    assert until is not None
    assert 30.0 < until < 540.0
    # The unrepaired line is the settled day itself.
    hours = round(15 * 3600 / STEP)
    assert np.array_equal(found.unrepaired[1:7], broken.indoor_temperature[hours : hours + 6])


def test_without_a_fault_nothing_has_to_be_won_back() -> None:
    """A repair of nothing goes on as the settled day does: by definition."""
    healthy = catalogue.load_installation()
    day = energy.day(healthy, SUMMER, SETPOINT)
    found = pull_down(healthy, day, SUMMER, SETPOINT)
    assert found.repaired[1:] == pytest.approx(found.unrepaired[1:], abs=0.05)


def test_winter_comes_from_below() -> None:
    """A compressor that does not run leaves the rooms to the strips' droop (by definition)."""
    healthy = catalogue.load_installation()
    broken = energy.day(
        faults.named("open_compressor", 1.0).applied_to(healthy), WINTER, SETPOINT, "heating"
    )
    found = pull_down(healthy, broken, WINTER, SETPOINT, mode="heating", hour=7.0)
    assert found.repaired[0] < SETPOINT - 0.5
    assert found.repaired[-1] > found.repaired[0]


@pytest.mark.parametrize(("mode", "weather"), [("cooling", SUMMER), ("heating", WINTER)])
def test_the_barometer_acts_on_a_day(mode: str, weather: DayWeather) -> None:
    """Thin air carries less heat for each turn of the wheel: the system runs longer
    (common practice, no source); sea level is what a day without a barometer means."""
    healthy = catalogue.load_installation()
    low = energy.day(healthy, weather, SETPOINT, mode)
    pressure = float(moist_air.standard_pressure(2500.0))
    high = energy.day(healthy, replace(weather, pressure=pressure), SETPOINT, mode)
    assert high.mean_run_fraction != pytest.approx(low.mean_run_fraction, rel=1e-3)
    same = replace(weather, pressure=moist_air.STANDARD_PRESSURE)
    assert energy.day(healthy, same, SETPOINT, mode).energy == low.energy
