"""Heat and water of the air close, from readings and parameters alone, by PsychroLib."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from simulator.plant import air_states, case
from simulator.plant.zone_balance import ZoneAir
from simulator.properties import moist_air
from tests.plant.stand import (
    CASES,
    Worked,
    air_capacity,
    air_heat,
    air_mass_flow,
    dry_air,
    fahrenheit,
    faulty,
    weather,
    worked,
)

# PsychroLib and the plant take the same handbook formulas; what is left is rounding.
AIR = 1e-5
# Through duct walls the plant takes the heat capacity of room air, here it is the drier supply's.
WALLS = 1e-4


def mixed_heat(now: Worked) -> float:
    """Air entering the coil: room air warmed in the return duct, and what leaks in."""
    point, around, ducts = now.point, now.around, now.built.ducts
    share = point.return_leak_airflow / point.airflow
    own, damp = air_mass_flow(now) * (1.0 - share), around.indoor_humidity_ratio
    kept = np.exp(-ducts.return_conductance / (own * air_capacity(damp)))
    room = point.return_zone_temperature + kept * (
        around.indoor_temperature - point.return_zone_temperature
    )
    leaked = air_heat(point.return_zone_temperature, point.return_zone_humidity_ratio)
    mixed = (1.0 - share) * air_heat(room, damp) + share * leaked
    entering = air_heat(
        point.air_handler_return_temperature, point.air_handler_return_humidity_ratio
    )
    return float(mixed / entering - 1.0)


def mixed_water(now: Worked) -> float:
    """Water entering the coil, from rooms and from the leak."""
    point = now.point
    share = point.return_leak_airflow / point.airflow
    mixed = (1.0 - share) * now.around.indoor_humidity_ratio
    mixed += share * point.return_zone_humidity_ratio
    return float(mixed / point.air_handler_return_humidity_ratio - 1.0)


def condensed_water(now: Worked) -> float:
    """Water lost by the air between return and plenum, against what drips, as a share of it all."""
    point = now.point
    lost = point.air_handler_return_humidity_ratio - point.supply_plenum_humidity_ratio
    water = air_mass_flow(now) * lost - point.condensate_rate
    return float(water / (air_mass_flow(now) * point.air_handler_return_humidity_ratio))


def blower_and_strips_heat(now: Worked) -> float:
    """Rise from coil to plenum, against volts times amps and volts squared over ohms."""
    point, unit = now.point, now.built.unit
    strips = unit.strips.energised_power * (now.around.voltage / unit.strips.plate_voltage) ** 2
    blower = now.around.voltage * point.blower_current * unit.blower.power_factor
    before = air_heat(point.coil_leaving_temperature, point.coil_leaving_humidity_ratio)
    after = air_heat(point.supply_plenum_temperature, point.supply_plenum_humidity_ratio)
    return float(air_mass_flow(now) * (after - before) / (strips + blower) - 1.0)


def zone_heat(now: Worked) -> float:
    """Everything that warms the zone less everything that cools it, over the sum of both.

    ASHRAE Fundamentals, sol-air temperature; ASHRAE 152, buffer zone. Heat of the supply duct
    walls from the registers, of the return duct wall from room air on its way.
    """
    point, around, zone = now.point, now.around, now.built.supply_zone
    here, damp, flow = point.zone_temperature, point.zone_humidity_ratio, air_mass_flow(now)
    outside = (around.outdoor_temperature, around.outdoor_humidity_ratio)
    leaked = flow * point.supply_leak_airflow / point.airflow
    drawn = flow * point.return_leak_airflow / point.airflow
    fresh = zone.vent_airflow * dry_air(*outside, around.pressure) + drawn
    shell = around.outdoor_temperature + zone.sun_share * around.solar
    own, ducts = (flow - drawn) * air_capacity(around.indoor_humidity_ratio), now.built.ducts
    back = own * (1.0 - np.exp(-ducts.return_conductance / own))
    through = (flow - leaked) * air_capacity(point.supply_plenum_humidity_ratio)
    supply, fades = (here - point.supply_plenum_temperature), ducts.supply_conductance / through
    walls = sum(
        share * (1.0 - np.exp(-fades * run))
        for share, run in zip(ducts.room_shares, ducts.room_runs, strict=True)
    )
    steam = air_heat(here, 1.0) - air_heat(here, 0.0)
    terms = [
        zone.shell_conductance * (shell - here),
        zone.ground_conductance * (zone.ground_temperature - here),
        (zone.house_conductance + back) * (around.indoor_temperature - here),
        -through * walls * supply,
        fresh * (air_heat(*outside) - air_heat(here, damp)),
        leaked
        * (
            air_heat(point.supply_plenum_temperature, point.supply_plenum_humidity_ratio)
            - air_heat(here, damp)
        ),
        zone.moisture_gain * steam,
    ]
    return float(sum(terms) / sum(abs(term) for term in terms))


def zone_water(now: Worked) -> float:
    """Water blown in, drawn in and given off, against what the air takes out."""
    point, around, zone = now.point, now.around, now.built.supply_zone
    outside = (around.outdoor_temperature, around.outdoor_humidity_ratio, around.pressure)
    leaked = air_mass_flow(now) * point.supply_leak_airflow / point.airflow
    fresh = zone.vent_airflow * dry_air(*outside)
    fresh += air_mass_flow(now) * point.return_leak_airflow / point.airflow
    brought = fresh * outside[1] + leaked * point.supply_plenum_humidity_ratio + zone.moisture_gain
    return float(brought / ((fresh + leaked) * point.zone_humidity_ratio) - 1.0)


# What must close, how closely, and the reading whose slight error must show.
CHECKS: dict[Callable[[Worked], float], tuple[float, str, float]] = {
    mixed_heat: (AIR, "return_zone_temperature", 0.2),
    mixed_water: (AIR, "return_zone_humidity_ratio", 2e-4),
    condensed_water: (AIR, "condensate_rate", 1e-5),
    blower_and_strips_heat: (AIR, "supply_plenum_temperature", 0.05),
    zone_heat: (WALLS, "zone_temperature", 1.0),
    zone_water: (AIR, "zone_humidity_ratio", 1e-5),
}


@pytest.fixture(scope="module", params=CASES)
def now(request: pytest.FixtureRequest) -> Worked:
    return worked(*CASES[request.param])


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.__name__)
def test_it_closes(check: Callable[[Worked], float], now: Worked) -> None:
    assert abs(check(now)) < CHECKS[check][0]


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.__name__)
def test_a_wrong_reading_does_not_close(check: Callable[[Worked], float]) -> None:
    bar, name, amount = CHECKS[check]
    right = worked(*CASES["leaky ducts"])
    wrong = replace(right.point, **{name: getattr(right.point, name) + amount})
    assert abs(check(right._replace(point=wrong))) > 2.0 * bar


@pytest.mark.parametrize("check", [mixed_heat, mixed_water], ids=lambda check: check.__name__)
def test_an_unsolved_guess_does_not_close(check: Callable[[Worked], float]) -> None:
    assert abs(check(worked(*CASES["leaky ducts"], settled=False))) > 3.0 * AIR


def test_return_leak_mixes_by_mass_and_enthalpy(published: dict[str, dict[str, str]]) -> None:
    """The mixing that the plant does, at the published attic state."""
    wet = moist_air.humidity_ratio_from_wet_bulb(fahrenheit(75), fahrenheit(63), 101325.0)
    rooms = replace(weather(), indoor_temperature=fahrenheit(75), indoor_humidity_ratio=float(wet))
    built = faulty()
    ducts = replace(built.ducts, return_leak=0.15, return_conductance=0.0)
    attic = fahrenheit(120)
    air = ZoneAir(attic, moist_air.humidity_ratio(attic, 0.17, 101325.0))
    mixed = air_states.entering_coil(case.prepared(replace(built, ducts=ducts), rooms), air, air)
    dry = float(mixed.temperature) * 1.8 - 459.67
    bulb = float(moist_air.wet_bulb(mixed.temperature, mixed.humidity_ratio, 101325.0)) * 1.8
    for row, value in (("P15", dry), ("P16", bulb - 459.67)):
        limits = published[row]
        assert float(limits["low"]) <= value <= float(limits["high"]), limits["source"]
