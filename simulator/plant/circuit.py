"""The refrigerant circuit: every state and flow for one guess of five unknowns.

The unknowns are the logarithms of evaporating pressure, condensing pressure and flow, and
two zone shares. ``superheat_share`` is the part of the boiling coil that superheats; below
zero it says how far the outlet quality falls short of one. ``liquid_share`` is the part of
the condensing coil full of liquid; below zero it is minus the outlet quality. Both carry
the state through the saturation line without a jump.
"""

from typing import NamedTuple

import numpy as np

from simulator.components import metering_device, refrigerant_lines
from simulator.components.indoor_coil import CoilAir
from simulator.plant import coil_duty, compressing, condensing, evaporating
from simulator.plant import refrigerant_side as side
from simulator.plant.compressing import Compressed
from simulator.plant.condensing import Condensed
from simulator.plant.conditions import Conditions
from simulator.plant.evaporating import Evaporated
from simulator.plant.installation import Unit
from simulator.plant.refrigerant_side import State
from simulator.properties.refrigerant import Refrigerant, Saturation
from simulator.quantities.values import Values

GAS_CONSTANT = 8.314462618  # J/(mol K), CODATA
GRAVITY = 9.80665  # m/s²
RATED_VOLUME = 1.0 / 33.0  # suction gas the line's rated pressure drop refers to [m³/kg]
# While heating, suction gas passes the outdoor unit's own pipes only.
SHORT_SUCTION = 0.3


class Guess(NamedTuple):
    """Five unknowns: three logarithms and two shares, floats or arrays [-]."""

    log_low: Values
    log_high: Values
    superheat_share: Values
    liquid_share: Values
    log_flow: Values


class Surroundings(NamedTuple):
    """What the circuit sees: fluid, weather, indoor coil air, airflow over rated [-]."""

    fluid: Refrigerant
    conditions: Conditions
    air: CoilAir
    airflow_ratio: Values


class CircuitState(NamedTuple):
    """Everything the guess implies; heats [W], pressures [Pa], enthalpies [J/kg]."""

    flow: Values
    low: Saturation
    high: Saturation
    suction_pressure: Values
    liquid_pressure: Values
    discharge_pressure: Values
    vapour_port_pressure: Values
    foreign_pressure: Values
    coil_outlet: State
    suction: State
    suction_dew: Values
    valve_rise: Values
    discharge_enthalpy: Values
    discharge_temperature: Values
    vapour_port_temperature: Values
    liquid: State
    valve_temperature: Values
    swept_flow: Values
    metered_flow: Values
    compressor_power: Values
    shell_loss: Values
    line_gain: Values
    line_loss: Values
    condensing_available: Values
    condensing_needed: Values
    boiling_available: Values
    boiling_needed: Values
    evaporator_heat: Values
    condenser_heat: Values
    sensible_heat: Values
    outdoor_air: CoilAir
    charge: Values


def evaluate(guess: Guess, unit: Unit, around: Surroundings) -> CircuitState:
    """All states and flows the guess implies.

    Parameters
    ----------
    guess : Guess
        The five unknowns.
    unit : Unit
        Parameters.
    around : Surroundings
        Fluid, weather and coil air.

    Returns
    -------
    CircuitState
        Not balanced unless the guess is a solution.
    """
    fluid, conditions = around.fluid, around.conditions
    heating = conditions.mode == "heating"
    outside = coil_duty.outdoor_air(unit, conditions)
    indoors = coil_duty.indoors(unit, around.air, around.airflow_ratio, boiling=not heating)
    outdoors = coil_duty.outdoors(unit, outside, boiling=heating)
    boiler, condenser = (outdoors, indoors) if heating else (indoors, outdoors)

    flow = np.exp(guess.log_flow)
    ratio = flow / unit.rated_flow
    low = fluid.saturation(guess.log_low)
    high = fluid.saturation(guess.log_high)
    made = evaporating.evaporated(
        fluid, guess.log_low, low, guess.superheat_share, flow, ratio, boiler
    )
    sucked = _suction_line(guess, unit, around, low, made)

    condensing_pressure = np.exp(guess.log_high)
    foreign = _foreign_pressure(guess, unit, high, condenser.volume)
    entry = condensing_pressure + foreign
    entry = entry + refrigerant_lines.square_law_drop(condenser.drop, ratio)
    discharge_pressure = entry
    if heating:
        discharge_pressure = entry + _vapour_line_drop(unit, flow, ratio, high)
    squeezed = compressing.compressed(unit, fluid, sucked.gas, sucked.pressure, discharge_pressure)
    lost = _vapour_line_loss(unit, around, squeezed, flow) if heating else 0.0 * flow
    hot_enthalpy = squeezed.enthalpy - lost / flow
    cooler = squeezed.temperature - lost / (flow * compressing.GAS_HEAT_CAPACITY)
    film = 1.0 / (
        1.0 + unit.outdoor_coil.air_film_penalty * foreign / (foreign + condensing_pressure)
    )
    shed = condensing.condensed(
        fluid,
        guess.log_high,
        high,
        guess.liquid_share,
        flow,
        ratio,
        (hot_enthalpy, cooler),
        film,
        condenser,
    )
    device = _meter(unit, around, shed, condensing_pressure + foreign, made, ratio)
    where = side.Inventory(
        entering_quality=(shed.liquid.enthalpy - low.liquid_enthalpy) / side.latent(low),
        coil_outlet=made.outlet,
        superheat_share=guess.superheat_share,
        suction=sucked.gas,
        vapour_share=shed.vapour_share,
        discharge_density=squeezed.density,
        liquid=shed.liquid,
        liquid_share=guess.liquid_share,
        suction_pressure=sucked.pressure,
        boiler_volume=boiler.volume,
        condenser_volume=condenser.volume,
        heating=heating,
    )
    return CircuitState(
        flow=flow,
        low=low,
        high=high,
        suction_pressure=sucked.pressure,
        liquid_pressure=device.upstream if heating else condensing_pressure + foreign,
        discharge_pressure=discharge_pressure,
        vapour_port_pressure=discharge_pressure if heating else sucked.pressure,
        foreign_pressure=foreign,
        coil_outlet=made.outlet,
        suction=sucked.gas,
        suction_dew=sucked.dew_temperature,
        valve_rise=squeezed.valve_rise,
        discharge_enthalpy=squeezed.enthalpy,
        discharge_temperature=squeezed.temperature,
        vapour_port_temperature=squeezed.temperature if heating else sucked.gas.temperature,
        liquid=shed.liquid,
        valve_temperature=device.temperature,
        swept_flow=squeezed.flow,
        metered_flow=device.flow,
        compressor_power=squeezed.power * flow,
        shell_loss=squeezed.power * flow * unit.compressor.shell_loss_fraction,
        line_gain=sucked.gain,
        line_loss=lost,
        condensing_available=shed.available,
        condensing_needed=flow * shed.needed,
        boiling_available=made.boiling,
        boiling_needed=flow * (made.boiling_end - shed.liquid.enthalpy),
        evaporator_heat=flow * (made.outlet.enthalpy - shed.liquid.enthalpy),
        condenser_heat=flow * (hot_enthalpy - shed.liquid.enthalpy),
        sensible_heat=made.sensible,
        outdoor_air=outside,
        charge=side.charge(unit, low, high, where),
    )


class _Sucked(NamedTuple):
    pressure: Values
    dew_temperature: Values
    gas: State
    gain: Values


def _suction_line(
    guess: Guess, unit: Unit, around: Surroundings, low: Saturation, made: Evaporated
) -> _Sucked:
    """Suction line: pressure lost and heat gained on the way to the service port."""
    lines, flow = unit.lines, np.exp(guess.log_flow)
    heating = around.conditions.mode == "heating"
    rated = lines.suction_pressure_drop * (SHORT_SUCTION if heating else 1.0)
    drop = refrigerant_lines.square_law_drop(
        rated + lines.suction_restriction, flow / unit.rated_flow
    )
    evaporating_pressure = np.exp(guess.log_low)
    # Bounded, so that a wild guess cannot ask for a pressure below zero.
    lost = np.exp(-drop / (made.outlet.density * RATED_VOLUME) / evaporating_pressure)
    pressure = evaporating_pressure * lost
    gain = refrigerant_lines.line_gain(
        lines.suction_conductance * (0.0 if heating else 1.0),
        around.conditions.outdoor_temperature,
        made.outlet.temperature,
        flow * low.vapour_heat_capacity,
    )
    log_pressure = np.log(pressure)
    line = around.fluid.saturation(log_pressure)
    gas = side.vapour_side(around.fluid, log_pressure, line, made.outlet.enthalpy + gain / flow)
    return _Sucked(pressure, line.dew_temperature, gas, gain)


def _vapour_line_drop(unit: Unit, flow: Values, ratio: Values, high: Saturation) -> Values:
    """Pressure lost by hot gas on its way indoors, denser than suction gas."""
    rated = unit.lines.suction_pressure_drop / (high.vapour_density * 0.8 * RATED_VOLUME)
    return refrigerant_lines.square_law_drop(rated, ratio)


def _vapour_line_loss(unit: Unit, around: Surroundings, hot: Compressed, flow: Values) -> Values:
    """Heat that the hot vapour line loses outdoors."""
    return -refrigerant_lines.line_gain(
        unit.lines.suction_conductance,
        around.conditions.outdoor_temperature,
        hot.temperature,
        flow * compressing.GAS_HEAT_CAPACITY,
    )


def _foreign_pressure(guess: Guess, unit: Unit, high: Saturation, volume: Values) -> Values:
    """Partial pressure of air caught in the condensing coil, Dalton's law."""
    gas_share = 1.0 - 0.97 * np.clip(guess.liquid_share, 0.0, 1.0)
    return unit.foreign_gas * GAS_CONSTANT * high.bubble_temperature / (volume * gas_share)


class _Metered(NamedTuple):
    flow: Values
    temperature: Values
    upstream: Values


def _meter(
    unit: Unit,
    around: Surroundings,
    shed: Condensed,
    liquid_pressure: Values,
    made: Evaporated,
    ratio: Values,
) -> _Metered:
    """Liquid line with its drier and its climb, then the metering device."""
    lines, fluid = unit.lines, around.fluid
    heating = around.conditions.mode == "heating"
    device = unit.heating_metering if heating else unit.metering
    lost = refrigerant_lines.square_law_drop(lines.liquid_pressure_drop + lines.restriction, ratio)
    climb = (-lines.lift if heating else lines.lift) * shed.liquid.density * GRAVITY
    upstream = liquid_pressure * np.exp(-(lost + climb) / liquid_pressure)
    log_upstream = np.log(upstream)
    line = fluid.saturation(log_upstream)
    arriving = side.liquid_side(fluid, log_upstream, line, shed.liquid.enthalpy)
    quality = np.maximum(shed.liquid.enthalpy - line.liquid_enthalpy, 0.0) / side.latent(line)
    flash = np.minimum(fluid.bubble_pressure(arriving.temperature), upstream)
    flow = metering_device.metered_flow(
        device,
        made.superheat,
        upstream,
        flash,
        line.liquid_density,
        line.vapour_density,
        quality,
    )
    return _Metered(flow, arriving.temperature, upstream)
