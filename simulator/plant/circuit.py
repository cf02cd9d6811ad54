"""The refrigerant circuit: every state and flow for one guess of five unknowns.

The unknowns are the logarithms of evaporating pressure, condensing pressure and flow, and
two zone shares. ``superheat_share`` is the part of the indoor coil that superheats; below
zero it says how far the outlet quality falls short of one. ``liquid_share`` is the part of
the outdoor coil full of liquid; below zero it is minus the outlet quality. Both carry the
state through the saturation line without a jump.
"""

from typing import NamedTuple

import numpy as np

from simulator.components import compressor as scroll
from simulator.components import indoor_coil, metering_device, outdoor_coil, refrigerant_lines
from simulator.components.indoor_coil import CoilAir
from simulator.plant import refrigerant_side as side
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Unit
from simulator.plant.refrigerant_side import State
from simulator.properties import moist_air
from simulator.properties.refrigerant import Refrigerant, Saturation
from simulator.quantities.values import Values

GAS_CONSTANT = 8.314462618  # J/(mol K), CODATA


class Guess(NamedTuple):
    """The five unknowns; floats or arrays."""

    log_low: Values
    log_high: Values
    superheat_share: Values
    liquid_share: Values
    log_flow: Values


class Surroundings(NamedTuple):
    """What the circuit sees: fluid, weather, and the air entering the indoor coil."""

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
    foreign_pressure: Values
    coil_outlet: State
    suction: State
    suction_dew: Values
    discharge_enthalpy: Values
    discharge_temperature: Values
    liquid: State
    valve_temperature: Values
    swept_flow: Values
    metered_flow: Values
    compressor_power: Values
    shell_loss: Values
    line_gain: Values
    condensing_available: Values
    condensing_needed: Values
    boiling_available: Values
    boiling_needed: Values
    evaporator_heat: Values
    sensible_heat: Values
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
    fluid = around.fluid
    flow = np.exp(guess.log_flow)
    ratio = flow / unit.rated_flow
    low = fluid.saturation(guess.log_low)
    high = fluid.saturation(guess.log_high)

    indoor = _indoor(guess, unit, around, low, ratio)
    sucked = _suction_line(guess, unit, around, low, indoor)

    condensing = np.exp(guess.log_high)
    foreign = _foreign_pressure(guess, unit, high)
    drop = refrigerant_lines.square_law_drop(unit.outdoor_coil.pressure_drop, ratio)
    discharge_pressure = condensing + foreign + drop
    squeezed = _compress(unit, fluid, sucked.gas, sucked.pressure, discharge_pressure)
    outdoor = _outdoor(guess, unit, around, high, ratio, squeezed, foreign)
    device = _meter(unit, fluid, outdoor, condensing + foreign, indoor, ratio)
    entering_quality = (outdoor.liquid.enthalpy - low.liquid_enthalpy) / side.latent(low)
    charge = side.charge(
        unit,
        low,
        high,
        side.Inventory(
            entering_quality,
            indoor.outlet,
            guess.superheat_share,
            sucked.gas,
            outdoor.vapour_share,
            squeezed.density,
            outdoor.liquid,
            guess.liquid_share,
            sucked.pressure,
        ),
    )
    needed = indoor.boiling_end - outdoor.liquid.enthalpy
    return CircuitState(
        flow=flow,
        low=low,
        high=high,
        suction_pressure=sucked.pressure,
        liquid_pressure=condensing + foreign,
        discharge_pressure=discharge_pressure,
        foreign_pressure=foreign,
        coil_outlet=indoor.outlet,
        suction=sucked.gas,
        suction_dew=sucked.dew_temperature,
        discharge_enthalpy=squeezed.enthalpy,
        discharge_temperature=squeezed.temperature,
        liquid=outdoor.liquid,
        valve_temperature=device.temperature,
        swept_flow=squeezed.flow,
        metered_flow=device.flow,
        compressor_power=squeezed.power * flow,
        shell_loss=squeezed.power * flow * unit.compressor.shell_loss_fraction,
        line_gain=sucked.gain,
        condensing_available=outdoor.available,
        condensing_needed=flow * outdoor.needed,
        boiling_available=indoor.boiling,
        boiling_needed=flow * needed,
        evaporator_heat=flow * (indoor.outlet.enthalpy - outdoor.liquid.enthalpy),
        sensible_heat=indoor.sensible,
        charge=charge,
    )


class _Indoor(NamedTuple):
    outlet: State
    boiling_end: Values
    boiling: Values
    sensible: Values
    bulb_superheat: Values


def _indoor(
    guess: Guess, unit: Unit, around: Surroundings, low: Saturation, ratio: Values
) -> _Indoor:
    """Indoor coil: boiling part wet or dry, superheating part dry."""
    coil, air = unit.indoor_coil, around.air
    air_side = coil.air_conductance * around.airflow_ratio**0.5
    inner = coil.two_phase_conductance * ratio**0.35
    dry_part = np.maximum(guess.superheat_share, 0.0)
    whole = indoor_coil.boiling_heat(air, low.dew_temperature, air_side, inner)
    boiling = whole * (1.0 - dry_part)
    capacity = air.mass_flow * air.heat_capacity
    vapour = outdoor_coil.in_series(air_side, coil.vapour_conductance * ratio**0.8)
    reach = outdoor_coil.slice_effectiveness(vapour, capacity) * capacity
    vapour_rate = np.exp(guess.log_flow) * low.vapour_heat_capacity
    warming = -np.expm1(-reach * dry_part / vapour_rate)
    superheating = low.vapour_heat_capacity * warming * (air.temperature - low.dew_temperature)
    short = np.minimum(guess.superheat_share, 0.0)
    end = low.vapour_enthalpy + short * side.latent(low)
    outlet = side.vapour_side(around.fluid, guess.log_low, low, end + superheating)
    sensible = indoor_coil.sensible_heat(air, boiling, 1.0 - dry_part, air_side)
    sensible = sensible + np.exp(guess.log_flow) * superheating
    superheat = outlet.temperature - low.dew_temperature
    return _Indoor(outlet, end, boiling, sensible, superheat)


class _Sucked(NamedTuple):
    pressure: Values
    dew_temperature: Values
    gas: State
    gain: Values


RATED_VOLUME = 1.0 / 33.0  # suction gas the line's rated pressure drop refers to [m³/kg]


def _suction_line(
    guess: Guess, unit: Unit, around: Surroundings, low: Saturation, indoor: _Indoor
) -> _Sucked:
    """Suction line: pressure lost and heat gained on the way to the service port."""
    lines, flow = unit.lines, np.exp(guess.log_flow)
    drop = refrigerant_lines.square_law_drop(lines.suction_pressure_drop, flow / unit.rated_flow)
    evaporating = np.exp(guess.log_low)
    # Bounded, so that a wild guess cannot ask for a pressure below zero.
    lost = np.exp(-drop / (indoor.outlet.density * RATED_VOLUME) / evaporating)
    pressure = evaporating * lost
    gain = refrigerant_lines.line_gain(
        lines.suction_conductance,
        around.conditions.outdoor_temperature,
        indoor.outlet.temperature,
        flow * low.vapour_heat_capacity,
    )
    log_pressure = np.log(pressure)
    line = around.fluid.saturation(log_pressure)
    gas = side.vapour_side(around.fluid, log_pressure, line, indoor.outlet.enthalpy + gain / flow)
    return _Sucked(pressure, line.dew_temperature, gas, gain)


def _foreign_pressure(guess: Guess, unit: Unit, high: Saturation) -> Values:
    """Partial pressure of air caught in the outdoor coil, Dalton's law."""
    gas_share = 1.0 - 0.97 * np.clip(guess.liquid_share, 0.0, 1.0)
    room = unit.outdoor_coil.tube_volume * gas_share
    return unit.foreign_gas * GAS_CONSTANT * high.bubble_temperature / room


class _Squeezed(NamedTuple):
    enthalpy: Values
    temperature: Values
    density: Values
    power: Values  # electrical, per unit of net flow [J/kg]
    flow: Values


def _compress(
    unit: Unit,
    fluid: Refrigerant,
    suction: State,
    suction_pressure: Values,
    discharge_pressure: Values,
) -> _Squeezed:
    """Compression, with blow-back mixing hot gas into the suction gas."""
    machine = unit.compressor
    pressure_ratio = discharge_pressure / suction_pressure
    log_discharge = np.log(discharge_pressure)
    port = fluid.saturation(log_discharge)
    efficiency = scroll.overall_efficiency(machine, pressure_ratio)
    kept = 1.0 - machine.leak_fraction
    into_gas = 1.0 - machine.shell_loss_fraction
    lift = side.isentropic_lift(fluid, log_discharge, port, suction)
    # Hot gas blown back makes the mixture lighter and its work greater, in proportion to
    # its absolute temperature (ideal gas): two passes settle it well below a millikelvin.
    cp = 1150.0
    warmed = suction.temperature
    work = lift / efficiency
    for _ in range(3):
        work = lift / efficiency * warmed / suction.temperature
        warmed = suction.temperature + machine.leak_fraction / kept * work * into_gas / cp
    density = suction.density * suction.temperature / warmed
    flow = kept * scroll.swept_mass_flow(machine, density, pressure_ratio)
    power = work / kept
    enthalpy = suction.enthalpy + power * into_gas
    discharge = side.vapour_side(fluid, log_discharge, port, enthalpy)
    return _Squeezed(enthalpy, discharge.temperature, discharge.density, power, flow)


class _Outdoor(NamedTuple):
    liquid: State
    vapour_share: Values
    available: Values
    needed: Values


def _outdoor(
    guess: Guess,
    unit: Unit,
    around: Surroundings,
    high: Saturation,
    ratio: Values,
    hot: _Squeezed,
    foreign: Values,
) -> _Outdoor:
    """Outdoor coil: desuperheating, condensing and subcooling parts."""
    coil, conditions = unit.outdoor_coil, around.conditions
    airflow = outdoor_coil.outdoor_airflow(coil)
    density = moist_air.density(
        conditions.outdoor_temperature, conditions.outdoor_humidity_ratio, conditions.pressure
    )
    capacity = airflow * density * moist_air.heat_capacity(conditions.outdoor_humidity_ratio)
    air_side = coil.air_conductance * (airflow / coil.airflow) ** 0.5
    foreign_share = foreign / (foreign + np.exp(guess.log_high))
    film = coil.two_phase_conductance * ratio**0.3 / (1.0 + coil.air_film_penalty * foreign_share)

    def reach(inner: Values) -> Values:
        whole = outdoor_coil.in_series(air_side, inner)
        return outdoor_coil.slice_effectiveness(whole, capacity) * capacity

    ambient = conditions.outdoor_temperature
    # Never less than a quarter of a kelvin, joined smoothly: guesses may cross ambient.
    gap = high.dew_temperature - ambient
    gap = 0.5 * (gap + np.sqrt(gap * gap + 0.25))
    hot_gap = np.maximum(hot.temperature - high.dew_temperature, 0.0)
    flow = np.exp(guess.log_flow)
    spare = np.maximum(hot.enthalpy - high.vapour_enthalpy, 0.0)
    mean_cp = spare / np.maximum(hot_gap, 1e-9)
    units = np.log1p(hot_gap / gap)
    vapour_share = flow * mean_cp * units / reach(coil.vapour_conductance * ratio**0.8)
    liquid_share = np.maximum(guess.liquid_share, 0.0)
    short = np.minimum(guess.liquid_share, 0.0)
    end = high.liquid_enthalpy - short * side.latent(high)
    # Mean liquid heat capacity down to ambient, from the saturation line.
    cooled = around.fluid.saturation(
        np.log(around.fluid.bubble_pressure(np.minimum(ambient, high.bubble_temperature - 0.01)))
    )
    liquid_gap = np.maximum(high.bubble_temperature - cooled.bubble_temperature, 0.01)
    liquid_cp = (high.liquid_enthalpy - cooled.liquid_enthalpy) / liquid_gap
    cooling = -np.expm1(
        -reach(coil.liquid_conductance * ratio**0.8) * liquid_share / (flow * liquid_cp)
    )
    leaving = end - liquid_cp * liquid_gap * cooling
    liquid = side.liquid_side(around.fluid, guess.log_high, high, leaving)
    two_phase = 1.0 - vapour_share - liquid_share
    start = np.minimum(hot.enthalpy, high.vapour_enthalpy)
    return _Outdoor(liquid, vapour_share, two_phase * reach(film) * gap, start - end)


class _Metered(NamedTuple):
    flow: Values
    temperature: Values


def _meter(
    unit: Unit,
    fluid: Refrigerant,
    outdoor: _Outdoor,
    liquid_pressure: Values,
    indoor: _Indoor,
    ratio: Values,
) -> _Metered:
    """Liquid line with its drier, then the metering device."""
    lines = unit.lines
    lost = refrigerant_lines.square_law_drop(lines.liquid_pressure_drop + lines.restriction, ratio)
    upstream = liquid_pressure * np.exp(-lost / liquid_pressure)
    log_upstream = np.log(upstream)
    line = fluid.saturation(log_upstream)
    arriving = side.liquid_side(fluid, log_upstream, line, outdoor.liquid.enthalpy)
    quality = np.maximum(outdoor.liquid.enthalpy - line.liquid_enthalpy, 0.0) / side.latent(line)
    flash = np.minimum(fluid.bubble_pressure(arriving.temperature), upstream)
    flow = metering_device.metered_flow(
        unit.metering,
        indoor.bulb_superheat,
        upstream,
        flash,
        line.liquid_density,
        line.vapour_density,
        quality,
    )
    return _Metered(flow, arriving.temperature)
