"""Air that is thin, strips that are too hot, and a valve that heats a summer's rooms."""

from dataclasses import replace

import pytest

from simulator.components import electric_strips
from simulator.faults._catalogue import named
from simulator.plant import catalogue, steady
from simulator.plant.conditions import Conditions
from simulator.plant.operating_point import OperatingPoint
from simulator.properties import moist_air
from simulator.repairs._catalogue import discover as repairs
from simulator.serve.stand import house_day
from tests.plant.stand import fahrenheit, installed, weather, winter

UNITS = ("quail_36", "siskin_18", "martlet_24", "heron_30", "dunlin_48", "bittern_60")
HIGH = 69682.0  # at 10,000 ft, U.S. Standard Atmosphere 1976 [Pa]


def thin(around: Conditions) -> Conditions:
    """The same temperatures and water, 10,000 ft up."""
    return replace(around, pressure=HIGH)


def both(motor: str | None, around: Conditions) -> tuple[OperatingPoint, OperatingPoint, float]:
    """At sea level and high up, and how much thinner the air is."""
    built = catalogue.load_installation(metering="txv", motor=motor)
    low, high = (steady.solve(built, one) for one in (around, thin(around)))
    air = [
        float(moist_air.density(one.grille_temperature, one.grille_humidity_ratio, one.pressure))
        for one in (low, high)
    ]
    return low, high, air[1] / air[0]


@pytest.mark.parametrize("motor", ["psc", "constant_torque"])
def test_drops_go_with_density_and_the_square_of_flow(motor: str) -> None:
    """Darcy and Weisbach: rho v²/2; a coil with friction after Blasius, rho^0.8 v^1.8."""
    # While heating, so that the coil is dry at both.
    low, high, thinner = both(motor, winter())
    flow = float(high.airflow / low.airflow)
    drop = float(high.filter_drop / low.filter_drop)
    assert drop == pytest.approx(thinner * flow**2, rel=1e-6)
    coil = float(high.coil_drop / low.coil_drop)
    assert coil == pytest.approx(thinner**0.8 * flow**1.8, rel=0.01)


def test_a_wheel_in_thin_air_moves_as_much_of_it_at_the_same_speed() -> None:
    """Fan laws, AMCA 201: flow with speed, pressure with density; ducts and wheel scale alike.

    An induction motor holds its speed within its slip, so flow stays within that and statics
    fall with density. A motor of constant torque speeds up by the root of density and keeps
    its statics.
    """
    low, high, thinner = both("psc", winter())
    assert 1.0 <= float(high.airflow / low.airflow) < 1.06
    speed = float(high.blower_speed / low.blower_speed)
    assert float(high.airflow / low.airflow) == pytest.approx(speed, rel=0.01)
    statics = float(high.total_external_static / low.total_external_static)
    assert statics == pytest.approx(thinner * speed**2, rel=0.02)

    low, high, thinner = both("constant_torque", winter())
    assert float(high.airflow / low.airflow) == pytest.approx(thinner**-0.5, rel=0.02)
    statics = float(high.total_external_static / low.total_external_static)
    assert statics == pytest.approx(1.0, abs=0.02)


@pytest.mark.parametrize("metering", ["txv", "orifice"])
@pytest.mark.parametrize("ice", [0.3, 0.95, 1.0])
def test_no_air_leaves_the_strips_hotter_than_their_limit(metering: str, ice: float) -> None:
    """UL 1995 (from memory): never above 200 °F; energy closes with what the limit leaves."""
    built = installed(metering, iced_indoor_coil=ice, strips_on=10.0)
    point = steady.solve(built, weather())
    assert float(point.supply_plenum_temperature) <= fahrenheit(175.1)
    full = electric_strips.strip_power(built.unit.strips, point.voltage)
    assert float(point.strip_power) == pytest.approx(float(full * point.strip_duty))
    assert (float(point.strip_duty) < 1.0) == (ice > 0.9)


def test_the_limit_stays_closed_over_the_air_a_kit_is_made_for() -> None:
    for outdoor in (-5.0, 20.0, 47.0):
        around = replace(winter(outdoor), auxiliary_call=1.0)
        assert float(steady.solve(installed(), around).strip_duty) == 1.0
    assert float(steady.solve(installed(), weather()).strip_duty) == 1.0


def test_little_air_opens_the_limit_in_winter_too() -> None:
    starved = installed(weak_blower=0.75, loaded_filter=12.0, closed_registers=1.0)
    point = steady.solve(starved, replace(winter(60.0), auxiliary_call=1.0))
    assert 0.0 < float(point.strip_duty) < 1.0
    assert float(point.supply_plenum_temperature) == pytest.approx(fahrenheit(175.0), abs=0.1)


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize("power", [4.8, 9.6, 14.4])
def test_a_new_sequencer_restores_every_unit_with_and_without_a_call(
    unit: str, power: float
) -> None:
    """The three sizes of kits, common practice, no source."""
    healthy = catalogue.load_installation(unit=unit)
    stuck = named("strips_on", power).applied_to(healthy)
    mended = repairs()["replace_sequencer"]().applied_to(stuck)
    calls = [winter(35.0), replace(winter(35.0), auxiliary_call=1.0), weather()]
    for around in calls:
        before, after = (steady.solve(one, around) for one in (healthy, mended))
        assert float(after.strip_power) == pytest.approx(float(before.strip_power))
    assert float(steady.solve(stuck, weather()).strip_power) > 0.9 * 1e3 * min(power, 4.8)


@pytest.mark.parametrize("outdoor", [85.0, 95.0, 105.0])
def test_a_valve_that_heats_a_summers_rooms_runs_on(outdoor: float) -> None:
    """Never at the setpoint, so it runs all day and takes more than a sound one (first law)."""
    sound, stuck = installed(), installed(stuck_reversing_valve=1.0)
    usual, hot = (house_day.truth(one, weather(outdoor)) for one in (sound, stuck))
    assert hot["run_fraction"]["value"] == pytest.approx(100.0)
    assert usual["run_fraction"]["value"] < 90.0
    assert hot["total_energy"]["value"] > usual["total_energy"]["value"]
