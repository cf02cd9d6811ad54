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
from simulator.plant import compressing, condensing, evaporating
from simulator.plant import refrigerant_side as side
from simulator.plant.coil_duty import Duty, Stream
from simulator.plant.compressing import Compressed, Sucked
from simulator.plant.condensing import Condensed
from simulator.plant.conditions import Conditions
from simulator.plant.evaporating import Evaporated
from simulator.plant.installation import Unit
from simulator.plant.refrigerant_side import State
from simulator.properties.refrigerant import Refrigerant, Saturation
from simulator.quantities.values import Values, held

GAS_CONSTANT = 8.314462618  # J/(mol K), CODATA
GRAVITY = 9.80665  # m/s²
RATED_VOLUME = 1.0 / 33.0  # suction gas the line's rated pressure drop refers to [m³/kg]
SHORT_SUCTION = 0.3  # while heating, suction gas passes the outdoor unit's own pipes only


class Guess(NamedTuple):
    """Five unknowns: three logarithms and two shares, floats or arrays [-]."""

    log_low: Values
    log_high: Values
    superheat_share: Values
    liquid_share: Values
    log_flow: Values


class Surroundings(NamedTuple):
    """What the circuit sees: fluid, weather, both coils with their air."""

    fluid: Refrigerant
    conditions: Conditions
    indoors: Duty
    outdoors: Duty

    @property
    def heating(self) -> bool:
        """Whether the outdoor coil boils.

        Returns
        -------
        bool
        """
        return self.conditions.mode == "heating"


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
    boiling_film: Values
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
        Fluid, weather and coils.

    Returns
    -------
    CircuitState
        Not balanced unless the guess is a solution.
    """
    fluid, heating = around.fluid, around.heating
    indoors, outdoors = around.indoors, around.outdoors
    boiler, condenser = (outdoors, indoors) if heating else (indoors, outdoors)
    flow = np.exp(guess.log_flow)
    ratio = flow / unit.rated_flow
    low, high = fluid.saturation(guess.log_low), fluid.saturation(guess.log_high)
    boils = Stream(fluid, guess.log_low, low, guess.superheat_share, flow, ratio)
    made = evaporating.evaporated(boils, boiler)
    sucked = _suction_line(boils, unit, around, made)
    pressures = _high_side(guess, unit, around, high, condenser, ratio)
    squeezed = compressing.compressed(unit, around.conditions, fluid, sucked, pressures.discharge)
    arriving = _arriving_gas(unit, around, squeezed, flow)
    condenses = Stream(fluid, guess.log_high, high, guess.liquid_share, flow, ratio)
    shed = condensing.condensed(condenses, arriving[:2], pressures.film_factor, condenser)
    device = _meter(boils, unit, around, shed, pressures.liquid, made)
    where = side.Inventory(
        flow=flow,
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
        liquid_pressure=device.outdoor_end if heating else pressures.liquid,
        discharge_pressure=pressures.discharge,
        vapour_port_pressure=pressures.discharge if heating else sucked.pressure,
        foreign_pressure=pressures.foreign,
        coil_outlet=made.outlet,
        suction=sucked.gas,
        suction_dew=sucked.line.dew_temperature,
        valve_rise=squeezed.valve_rise,
        discharge_enthalpy=squeezed.enthalpy,
        discharge_temperature=squeezed.temperature,
        vapour_port_temperature=squeezed.temperature if heating else sucked.gas.temperature,
        liquid=shed.liquid,
        valve_temperature=device.temperature,
        swept_flow=squeezed.flow,
        metered_flow=device.flow,
        compressor_power=squeezed.power * flow,
        shell_loss=squeezed.shed * flow,
        line_gain=sucked.gain,
        line_loss=arriving[2],
        condensing_available=shed.available,
        condensing_needed=flow * shed.needed,
        boiling_available=made.boiling,
        boiling_film=made.film,
        boiling_needed=flow * (made.boiling_end - shed.liquid.enthalpy),
        evaporator_heat=flow * (made.outlet.enthalpy - shed.liquid.enthalpy),
        condenser_heat=flow * (arriving[0] - shed.liquid.enthalpy),
        sensible_heat=made.sensible,
        outdoor_air=outdoors.air,
        charge=side.charge(unit, low, high, where),
    )


def _suction_line(boils: Stream, unit: Unit, around: Surroundings, made: Evaporated) -> Sucked:
    """Suction line: pressure lost and heat gained on the way to the service port."""
    lines, flow, fluid = unit.lines, boils.flow, boils.fluid
    own_pipes = SHORT_SUCTION * lines.suction_pressure_drop
    rated = own_pipes if around.heating else lines.large_pipe_drop
    drop = refrigerant_lines.square_law_drop(rated, boils.flow_ratio)
    evaporating_pressure = np.exp(boils.log_pressure)
    # Bounded, so that a wild guess cannot ask for a pressure below zero.
    lost = np.exp(-drop / (made.outlet.density * RATED_VOLUME) / evaporating_pressure)
    pressure = evaporating_pressure * lost
    gain = refrigerant_lines.line_gain(
        lines.suction_conductance * (0.0 if around.heating else 1.0),
        around.conditions.outdoor_temperature,
        made.outlet.temperature,
        flow * boils.line.vapour_heat_capacity,
    )
    log_pressure = np.log(pressure)
    line = fluid.saturation(log_pressure)
    gas = side.vapour_side(fluid, log_pressure, line, made.outlet.enthalpy + gain / flow)
    return Sucked(pressure, line, gas, gain)


class _HighSide(NamedTuple):
    foreign: Values
    liquid: Values
    discharge: Values
    film_factor: Values


def _high_side(
    guess: Guess,
    unit: Unit,
    around: Surroundings,
    high: Saturation,
    condenser: Duty,
    ratio: Values,
) -> _HighSide:
    """Pressures from the condensing coil's outlet back to the compressor."""
    condensing_pressure = np.exp(guess.log_high)
    # Air is caught where liquid leaves room for gas (Dalton's law).
    room = condenser.volume * (1.0 - 0.97 * held(guess.liquid_share, 0.0, 1.0))
    foreign = unit.foreign_gas * GAS_CONSTANT * high.bubble_temperature / room
    share = foreign / (foreign + condensing_pressure)
    discharge = condensing_pressure + foreign
    discharge = discharge + refrigerant_lines.square_law_drop(condenser.drop, ratio)
    if around.heating:
        # Hot gas goes indoors through the large pipe, denser there than suction gas.
        rated = unit.lines.large_pipe_drop / (high.vapour_density * 0.8 * RATED_VOLUME)
        discharge = discharge + refrigerant_lines.square_law_drop(rated, ratio)
    return _HighSide(
        foreign=foreign,
        liquid=condensing_pressure + foreign,
        discharge=discharge,
        film_factor=1.0 / (1.0 + unit.outdoor_coil.air_film_penalty * share),
    )


def _arriving_gas(
    unit: Unit, around: Surroundings, hot: Compressed, flow: Values
) -> tuple[Values, Values, Values]:
    """Enthalpy and temperature at the condensing coil; heat lost by the pipe outdoors."""
    if not around.heating:
        return hot.enthalpy, hot.temperature, 0.0 * flow
    rate = flow * compressing.GAS_HEAT_CAPACITY
    lost = -refrigerant_lines.line_gain(
        unit.lines.suction_conductance,
        around.conditions.outdoor_temperature,
        hot.temperature,
        rate,
    )
    return hot.enthalpy - lost / flow, hot.temperature - lost / rate, lost


class _Metered(NamedTuple):
    """Flow [kg/s] and temperature before the device [K]; pressure at the outdoor end [Pa]."""

    flow: Values
    temperature: Values
    outdoor_end: Values


def _meter(
    boils: Stream,
    unit: Unit,
    around: Surroundings,
    shed: Condensed,
    liquid_pressure: Values,
    made: Evaporated,
) -> _Metered:
    """Liquid line, what obstructs it, and its climb, then the metering device.

    The obstruction sits before the device of either mode, so that the service port outdoors
    stands before it in both.
    """
    lines, fluid = unit.lines, around.fluid
    heating = around.heating
    device = unit.heating_metering if heating else unit.metering
    lost = refrigerant_lines.square_law_drop(lines.liquid_pressure_drop, boils.flow_ratio)
    choked = refrigerant_lines.square_law_drop(lines.restriction, boils.flow_ratio)
    climb = (-lines.lift if heating else lines.lift) * shed.liquid.density * GRAVITY
    outdoor_end = liquid_pressure * np.exp(-(lost + climb) / liquid_pressure)
    upstream = liquid_pressure * np.exp(-(lost + choked + climb) / liquid_pressure)
    log_upstream = np.log(upstream)
    line = fluid.saturation(log_upstream)
    arriving = side.liquid_side(fluid, log_upstream, line, shed.liquid.enthalpy)
    quality = np.maximum(shed.liquid.enthalpy - line.liquid_enthalpy, 0.0) / side.latent(line)
    flash = np.minimum(fluid.bubble_pressure(arriving.temperature), upstream)
    flow = metering_device.metered_flow(
        device,
        made.superheat,
        metering_device.driving_pressure(device, upstream, flash, np.exp(boils.log_pressure)),
        line.liquid_density,
        line.vapour_density,
        quality,
    )
    return _Metered(flow, arriving.temperature, outdoor_end)
