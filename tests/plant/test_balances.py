"""Heat, water and flow close, worked out again from readings, unknowns and parameters.

Nothing here calls an equation of the plant: air is PsychroLib's, refrigerant CoolProp's at the
reported pressures and temperatures, and every law is written out once more from its source.
"""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import CoolProp
import numpy as np
import psychrolib
import pytest

from simulator.plant.compressing import GAS_HEAT_CAPACITY
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from tests.plant.stand import (
    CASES,
    Worked,
    air_capacity,
    air_heat,
    air_mass_flow,
    dry_air,
    faulty,
    weather,
    worked,
)

# The shipped tables may be off by 0.1 % of the latent heat a state (tests/properties): twice in a
# difference of two states, and once more for a density.
TABLES = 3e-3
FLUID = CoolProp.CoolProp.AbstractState("HEOS", "R410A")


# --- states ---------------------------------------------------------------------------------


def saturated_heat(temperature: float, pressure: float) -> float:
    """Enthalpy of saturated air by PsychroLib. [J/kg]"""
    return float(psychrolib.GetSatAirEnthalpy(temperature - 273.15, pressure))


def state(pressure: float, temperature: float) -> Any:
    """A single-phase refrigerant state by CoolProp."""
    FLUID.update(CoolProp.PT_INPUTS, pressure, temperature)
    return FLUID


def line(pressure: float, quality: float) -> Any:
    """A saturated refrigerant state by CoolProp."""
    FLUID.update(CoolProp.PQ_INPUTS, pressure, quality)
    return FLUID


def pressures(now: Worked) -> tuple[float, float]:
    """Evaporating and condensing pressure, by CoolProp from the reported temperatures. [Pa]"""
    FLUID.update(CoolProp.QT_INPUTS, 1.0, now.point.evaporating_temperature)
    low = FLUID.p()
    FLUID.update(CoolProp.QT_INPUTS, 0.0, now.point.condensing_temperature)
    return low, FLUID.p()


def liquid_heat(now: Worked) -> float:
    """Enthalpy of the liquid that leaves the outdoor coil. [J/kg]"""
    return float(state(pressures(now)[1], now.point.liquid_line_temperature).hmass())


def series(first: float, second: float) -> float:
    """Two conductances one behind the other."""
    return 1.0 / (1.0 / first + 1.0 / second)


# --- what must close: each a share of the larger side -----------------------------------------


def coil_boils_what_flows(now: Worked) -> float:
    """Heat the boiling part can take from the air, against what the flow needs to boil.

    Braun, Klein and Mitchell 1989: wet coil on enthalpy, dry coil on temperature; the larger
    of the two counts, rounded off by one per cent of their sum where they meet.
    """
    point, coil, unit = now.point, now.built.unit.indoor_coil, now.built.unit
    flow, boils = air_mass_flow(now), float(point.evaporating_temperature)
    damp, warm = point.air_handler_return_humidity_ratio, point.air_handler_return_temperature
    cp = air_capacity(damp)
    outer = coil.air_conductance * (point.airflow / unit.rated_airflow) ** 0.5
    inner = coil.two_phase_conductance * (point.refrigerant_flow / unit.rated_flow) ** 0.35
    dry = flow * cp * (1.0 - np.exp(-series(outer, inner) / (flow * cp))) * (warm - boils)
    cold = saturated_heat(boils, now.around.pressure)
    slope = (saturated_heat(boils + 5.0, now.around.pressure) - cold) / 5.0 / cp
    units = outer / (flow * cp) / (1.0 + slope * outer / inner)
    wet = flow * (1.0 - np.exp(-units)) * (air_heat(warm, damp) - cold)
    round_off = 0.01 * (abs(wet) + abs(dry)) + 1.0
    whole = (wet + dry) / 2.0 + np.hypot((wet - dry) / 2.0, round_off) - round_off
    needed = line(pressures(now)[0], 1.0).hmass() - liquid_heat(now)
    available = whole * (1.0 - now.unknowns[2])
    return float(available / (point.refrigerant_flow * needed) - 1.0)


def compressor_moves_the_flow(now: Worked) -> float:
    """Swept volume times density at the suction port, less what scrolls lose to the ratio."""
    machine, point = now.built.unit.compressor, now.point
    filled = machine.volumetric_efficiency - machine.volumetric_slope * (
        point.discharge_pressure / point.suction_pressure - 1.0
    )
    density = state(point.suction_pressure, point.suction_line_temperature).rhomass()
    return float(machine.displacement * filled * density / point.refrigerant_flow - 1.0)


def device_meters_the_flow(now: Worked) -> float:
    """Kim and O'Neal 1994 on subcooled liquid; the valve opens on superheat at the coil."""
    unit, point, device = now.built.unit, now.point, now.built.unit.metering
    drop = unit.lines.liquid_pressure_drop + unit.lines.restriction
    lost = drop * (point.refrigerant_flow / unit.rated_flow) ** 2 / point.liquid_pressure
    upstream = point.liquid_pressure * np.exp(-lost)
    FLUID.update(CoolProp.QT_INPUTS, 0.0, point.liquid_after_drier_temperature)
    driving = upstream - device.flash_weight * FLUID.p()
    area = device.open_area
    if device.is_thermostatic:
        stroke = (point.coil_superheat - device.spring_superheat) / device.stroke_superheat
        both = (1.0 + np.exp(16.0 * stroke)) / (1.0 + np.exp(16.0 * (stroke - 1.0)))
        area *= device.least_opening + (1.0 - device.least_opening) * np.log(both) / 16.0
    passed = area * np.sqrt(2.0 * line(upstream, 0.0).rhomass() * driving)
    return float(passed / point.refrigerant_flow - 1.0)


def condenser_condenses_what_flows(now: Worked) -> float:
    """Heat the condensing part can give to the air, against latent heat times flow.

    Kays and London 1984, a stream at constant temperature in each part; the desuperheating
    part's length from the air it needs, the liquid part's from the unknown. The blend's glide
    is met by the logarithmic mean of both ends.
    """
    unit, point, around = now.built.unit, now.point, now.around
    coil, flow = unit.outdoor_coil, float(point.refrigerant_flow)
    outside = (around.outdoor_temperature, around.outdoor_humidity_ratio, around.pressure)
    open_share = 1.0 - coil.blocked_fraction
    rate = coil.airflow * open_share * dry_air(*outside) * air_capacity(outside[1])
    outer, ratio = coil.air_conductance * open_share**0.5, flow / unit.rated_flow

    def reach(inner: float) -> float:
        return rate * float(1.0 - np.exp(-series(outer, inner) / rate))

    high = pressures(now)[1]
    foreign = 1.0 - high / float(point.liquid_pressure)
    film = coil.two_phase_conductance * ratio**0.3 / (1.0 + coil.air_film_penalty * foreign)
    hot = state(point.discharge_pressure, point.discharge_temperature).hmass()
    dew, gas = line(high, 1.0).T(), line(high, 1.0).hmass()
    latent = gas - line(high, 0.0).hmass()
    over, gap = float(point.discharge_temperature) - dew, dew - around.outdoor_temperature
    cooled = flow * (hot - gas) / over * np.log((over + gap) / gap)
    share = 1.0 - now.unknowns[3] - cooled / reach(coil.vapour_conductance * ratio**0.8)
    # Between the dew point where it begins and the bubble point where it ends.
    last = line(high, 0.0).T() - around.outdoor_temperature
    mean = (gap - last) / np.log(gap / last)
    return float(share * reach(film) * mean / (flow * latent) - 1.0)


def air_gives_what_refrigerant_takes(now: Worked) -> float:
    """Enthalpy drop of the air times its flow, against flow times enthalpy difference."""
    point = now.point
    entering = air_heat(
        point.air_handler_return_temperature, point.air_handler_return_humidity_ratio
    )
    leaving = air_heat(point.coil_leaving_temperature, point.coil_leaving_humidity_ratio)
    outlet = state(pressures(now)[0], point.evaporator_outlet_temperature).hmass()
    taken = point.refrigerant_flow * (outlet - liquid_heat(now))
    return float(air_mass_flow(now) * (entering - leaving) / taken - 1.0)


def first_law_of_the_circuit(now: Worked) -> float:
    """Heat rejected against heat from the air, power less shell loss, and suction line gain."""
    point, unit = now.point, now.built.unit
    flow, low = point.refrigerant_flow, pressures(now)[0]
    entering = air_heat(
        point.air_handler_return_temperature, point.air_handler_return_humidity_ratio
    )
    leaving = air_heat(point.coil_leaving_temperature, point.coil_leaving_humidity_ratio)
    cp = line(low, 1.0).cpmass() * flow
    warmed = 1.0 - np.exp(-unit.lines.suction_conductance / cp)
    gain = cp * warmed * (now.around.outdoor_temperature - point.evaporator_outlet_temperature)
    power = point.voltage * point.compressor_current * unit.compressor.power_factor
    hot = state(point.discharge_pressure, point.discharge_temperature).hmass()
    # The shell: midway between suction gas and gas as hot as it would leave without loss.
    sucked = state(point.suction_pressure, point.suction_line_temperature)
    FLUID.update(CoolProp.HmassP_INPUTS, sucked.hmass() + power / flow, point.discharge_pressure)
    shell = 0.5 * (point.suction_line_temperature + FLUID.T()) - now.around.outdoor_temperature
    rate = GAS_HEAT_CAPACITY * flow
    into_gas = power - rate * (1.0 - np.exp(-unit.compressor.shell_conductance / rate)) * shell
    rejected = flow * (hot - liquid_heat(now))
    return float((air_mass_flow(now) * (entering - leaving) + into_gas + gain) / rejected - 1.0)


def power_is_that_of_the_gas(now: Worked) -> float:
    """Isentropic work over the efficiency at this ratio, against volts times amps."""
    point, machine = now.point, now.built.unit.compressor
    suction = state(point.suction_pressure, point.suction_line_temperature)
    start, entropy = suction.hmass(), suction.smass()
    FLUID.update(CoolProp.PSmass_INPUTS, point.discharge_pressure, entropy)
    stray = np.log(point.discharge_pressure / point.suction_pressure / machine.best_pressure_ratio)
    # Gas that slips back is paid for as gas swept.
    filled = [
        machine.volumetric_efficiency - machine.volumetric_slope * (ratio - 1.0)
        for ratio in (
            point.discharge_pressure / point.suction_pressure,
            machine.best_pressure_ratio,
        )
    ]
    wraps = 1.0 + machine.efficiency_curvature * stray**2
    efficiency = machine.best_efficiency * filled[0] / filled[1] / wraps
    work = point.refrigerant_flow * (FLUID.hmass() - start) / efficiency
    return float(work / (point.voltage * point.compressor_current * machine.power_factor) - 1.0)


Check = Callable[[Worked], float]
# These follow from the balance of the unknowns: a guess that does not solve them must show.
BY_SOLVING: list[Check] = [
    coil_boils_what_flows,
    compressor_moves_the_flow,
    device_meters_the_flow,
    condenser_condenses_what_flows,
]
# These hold for any guess if the equations are right: a wrong reading must show.
BY_STATES: dict[Check, tuple[str, float]] = {
    air_gives_what_refrigerant_takes: ("coil_leaving_temperature", 0.2),
    first_law_of_the_circuit: ("discharge_temperature", 2.0),
    power_is_that_of_the_gas: ("compressor_current", 0.1),
}
EVERY = [*BY_SOLVING, *BY_STATES]


@pytest.fixture(scope="module", params=CASES)
def now(request: pytest.FixtureRequest) -> Worked:
    return worked(*CASES[request.param])


@pytest.mark.parametrize("check", EVERY, ids=lambda check: check.__name__)
def test_it_closes(check: Check, now: Worked) -> None:
    assert abs(check(now)) < TABLES


@pytest.mark.parametrize("check", BY_SOLVING, ids=lambda check: check.__name__)
@pytest.mark.parametrize("name", ["valve", "air and restriction"])
def test_an_unsolved_guess_does_not_close(check: Check, name: str) -> None:
    assert abs(check(worked(*CASES[name], settled=False))) > 3.0 * TABLES


@pytest.mark.parametrize("check", BY_STATES, ids=lambda check: check.__name__)
def test_a_wrong_reading_does_not_close(check: Check) -> None:
    right = worked(*CASES["valve"])
    name, amount = BY_STATES[check]
    wrong = replace(right.point, **{name: getattr(right.point, name) + amount})
    assert abs(check(right._replace(point=wrong))) > TABLES


SUPERHEATS: dict[str, tuple[Installation, Conditions]] = {
    "dry gas": (faulty(), weather()),
    "starved": (faulty(metering="orifice", undercharge=0.3), weather()),
    "flooding": (faulty(metering="orifice", overcharge=0.3), weather(75.0, wet=58.0)),
    "flooding, cold": (faulty(metering="orifice", weak_blower=0.7), weather(70.0, wet=57.0)),
}


@pytest.mark.parametrize("name", SUPERHEATS)
def test_superheat_before_it_is_cut_off_at_zero(name: str) -> None:
    """Pipe less dew point at the port; wet vapour lies below by no more than the glide."""
    point = worked(*SUPERHEATS[name]).point
    dew = line(point.suction_pressure, 1.0).T()
    glide = dew - line(point.suction_pressure, 0.0).T()
    raw = float(point.suction_line_temperature) - dew
    assert float(point.superheat) == pytest.approx(max(raw, 0.0), abs=0.011)  # 0.02 °F of table
    if name.startswith("flooding"):
        assert -glide - 0.011 <= raw <= 0.011
    else:
        assert raw > 2.0
