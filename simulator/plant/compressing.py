"""Compression, with whatever hot gas slips back into the suction."""

from typing import NamedTuple

import numpy as np

from simulator.components import compressor as scroll
from simulator.components import supply_circuit
from simulator.plant import refrigerant_side as side
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Unit
from simulator.plant.refrigerant_side import State
from simulator.properties.refrigerant import Refrigerant, Saturation
from simulator.quantities.values import Values

GAS_HEAT_CAPACITY = 1150.0  # of hot discharge gas, for the mixture of slipped gas [J/(kg K)]


class Sucked(NamedTuple):
    """Suction gas at its port: pressure [Pa], saturation there, state; heat gained before [W]."""

    pressure: Values
    line: Saturation
    gas: State
    gain: Values


class Compressed(NamedTuple):
    """Discharge state; power and shell loss per net flow [J/kg]; net flow [kg/s]; warming [K]."""

    enthalpy: Values
    temperature: Values
    density: Values
    power: Values
    shed: Values
    flow: Values
    valve_rise: Values


def compressed(
    unit: Unit,
    conditions: Conditions,
    fluid: Refrigerant,
    sucked: Sucked,
    discharge_pressure: Values,
) -> Compressed:
    """Net flow and work of the compressor and its reversing valve.

    Gas slips back inside the compressor and through the reversing valve; both warm what
    the wraps take in, the valve's part already in the suction pipe.

    Parameters
    ----------
    unit : Unit
        Compressor and reversing valve.
    conditions : Conditions
        Tell the air around the shell.
    fluid : Refrigerant
        In the circuit.
    sucked : Sucked
        Before the reversing valve.
    discharge_pressure : float
        [Pa]

    Returns
    -------
    Compressed
    """
    machine = unit.compressor
    suction = sucked.gas
    pressure_ratio = discharge_pressure / sucked.pressure
    log_discharge = np.log(discharge_pressure)
    port = fluid.saturation(log_discharge)
    efficiency = scroll.overall_efficiency(machine, pressure_ratio)
    slipped = unit.reversing_valve.leak_fraction
    kept = (1.0 - machine.leak_fraction) * (1.0 - slipped)
    lift = side.isentropic_lift(fluid, log_discharge, port, suction, sucked.line)
    work = lift / efficiency * supply_circuit.capacitor_loss(machine.capacitor_share)
    # Hot gas slipped back makes the mixture lighter and its work greater, in proportion to
    # its absolute temperature (ideal gas): the warming w = a (t + w) solves at once.
    rise = (1.0 - kept) / kept * work / GAS_HEAT_CAPACITY / suction.temperature
    stretch = 1.0 / np.maximum(1.0 - rise, 0.2)
    density = suction.density / stretch
    flow = kept * scroll.swept_mass_flow(machine, density, pressure_ratio)
    power = work * stretch / kept
    hottest = side.vapour_side(fluid, log_discharge, port, suction.enthalpy + power)
    # Low-side shell: between suction gas about the motor and discharge gas under the cap.
    shell = 0.5 * (suction.temperature + hottest.temperature) - conditions.outdoor_temperature
    shed = -np.expm1(-machine.shell_conductance / (flow * GAS_HEAT_CAPACITY))
    shed = shed * GAS_HEAT_CAPACITY * shell
    enthalpy = suction.enthalpy + power - shed
    discharge = side.vapour_side(fluid, log_discharge, port, enthalpy)
    valve_rise = slipped / (1.0 - slipped) * power * kept / GAS_HEAT_CAPACITY
    return Compressed(
        enthalpy, discharge.temperature, discharge.density, power, shed, flow, valve_rise
    )
