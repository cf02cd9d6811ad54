"""Compression, with whatever hot gas slips back into the suction."""

from typing import NamedTuple

import numpy as np

from simulator.components import compressor as scroll
from simulator.components import supply_circuit
from simulator.plant import refrigerant_side as side
from simulator.plant.installation import Unit
from simulator.plant.refrigerant_side import State
from simulator.properties.refrigerant import Refrigerant, Saturation
from simulator.quantities.values import Values

GAS_HEAT_CAPACITY = 1150.0  # of hot discharge gas, for the mixture of slipped gas [J/(kg K)]


class Compressed(NamedTuple):
    """Discharge state; power per unit of net flow [J/kg]; net flow [kg/s]; warming [K]."""

    enthalpy: Values
    temperature: Values
    density: Values
    power: Values
    flow: Values
    valve_rise: Values


def compressed(
    unit: Unit,
    fluid: Refrigerant,
    suction: State,
    inlet: Saturation,
    pressures: tuple[Values, Values],
) -> Compressed:
    """Net flow and work of the compressor and its reversing valve.

    Gas slips back inside the compressor and through the reversing valve; both warm what
    the wraps take in, the valve's part already in the suction pipe.

    Parameters
    ----------
    unit : Unit
        Compressor and reversing valve.
    fluid : Refrigerant
        In the circuit.
    suction : State
        Before the reversing valve.
    inlet : Saturation
        At the suction pressure.
    pressures : tuple
        Of suction and discharge. [Pa]

    Returns
    -------
    Compressed
    """
    machine = unit.compressor
    suction_pressure, discharge_pressure = pressures
    pressure_ratio = discharge_pressure / suction_pressure
    log_discharge = np.log(discharge_pressure)
    port = fluid.saturation(log_discharge)
    efficiency = scroll.overall_efficiency(machine, pressure_ratio)
    slipped = unit.reversing_valve.leak_fraction
    kept = (1.0 - machine.leak_fraction) * (1.0 - slipped)
    into_gas = 1.0 - machine.shell_loss_fraction
    lift = side.isentropic_lift(fluid, log_discharge, port, suction, inlet)
    work = lift / efficiency * supply_circuit.capacitor_loss(machine.capacitor_share)
    # Hot gas slipped back makes the mixture lighter and its work greater, in proportion to
    # its absolute temperature (ideal gas): the warming w = a (t + w) solves at once.
    rise = (1.0 - kept) / kept * work * into_gas / GAS_HEAT_CAPACITY / suction.temperature
    stretch = 1.0 / np.maximum(1.0 - rise, 0.2)
    density = suction.density / stretch
    flow = kept * scroll.swept_mass_flow(machine, density, pressure_ratio)
    power = work * stretch / kept
    enthalpy = suction.enthalpy + power * into_gas
    discharge = side.vapour_side(fluid, log_discharge, port, enthalpy)
    valve_rise = slipped / (1.0 - slipped) * power * kept * into_gas / GAS_HEAT_CAPACITY
    return Compressed(enthalpy, discharge.temperature, discharge.density, power, flow, valve_rise)
