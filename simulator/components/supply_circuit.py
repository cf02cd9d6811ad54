"""Wires, lugs and contacts between the meter and the equipment."""

from dataclasses import dataclass

import numpy as np

from simulator.quantities.values import Values

# How far a run capacitor shifts the motor's current; size is common practice, no source.
CAPACITOR_POWER_FACTOR = 0.45
CAPACITOR_LOSS = 0.10
BREAKER = 60.0  # that no breaker of these units lets pass for long, common practice [A]


@dataclass(frozen=True, slots=True, kw_only=True)
class SupplyCircuit:
    """What stands in the way of the voltage.

    Parameters
    ----------
    sag : float
        Part of the voltage missing at the equipment, whatever the load. [-]
    contact_resistance : float
        Of the outdoor unit's contactor and lugs. [ohm]
    lost_leg : float
        1 while one of the outdoor unit's two legs is off. [-]
    """

    sag: Values
    contact_resistance: Values
    lost_leg: Values


def loaded_voltage(
    voltage: Values, resistance: Values, power: Values, power_factor: Values
) -> Values:
    """Voltage behind a resistance that feeds a motor of constant power.

    Parameters
    ----------
    voltage : float
        Before it. [V]
    resistance : float
        [ohm]
    power : float
        Of the motor. [W]
    power_factor : float
        Of the motor. [-]

    Returns
    -------
    float
        Solves ``v (voltage - v) = resistance * power / power_factor``; half the voltage
        where the resistance could not carry the load. [V]
    """
    room = np.maximum(voltage**2 - 4.0 * resistance * power / power_factor, 0.0)
    return 0.5 * (voltage + np.sqrt(room))


def breaker_opens(voltage: Values, insulation: Values) -> Values:
    """Whether current from one leg to ground opens the outdoor unit's breaker.

    Parameters
    ----------
    voltage : float
        Between the two legs. [V]
    insulation : float
        From the windings to the shell, which is bonded to ground. [ohm]

    Returns
    -------
    float
        1 where it opens, else 0. [-]
    """
    return np.where(0.5 * np.asarray(voltage) > BREAKER * np.asarray(insulation), 1.0, 0.0)


def takes_no_line(circuit: SupplyCircuit, voltage: Values, insulation: Values) -> Values:
    """Whether the outdoor unit is off the line: a leg lost, or its breaker open.

    Parameters
    ----------
    circuit : SupplyCircuit
        The circuit.
    voltage : float
        Between the two legs. [V]
    insulation : float
        From the windings to the shell. [ohm]

    Returns
    -------
    float
        1 where neither fan nor compressor can run, else 0. [-]
    """
    return np.maximum(circuit.lost_leg, breaker_opens(voltage, insulation))


def worn_power_factor(power_factor: Values, capacitor_share: Values) -> Values:
    """Power factor of a run-capacitor motor whose capacitor has faded.

    Parameters
    ----------
    power_factor : float
        With a good capacitor. [-]
    capacitor_share : float
        Capacitance over that on the label. [-]

    Returns
    -------
    float
        [-]
    """
    return power_factor * (1.0 - CAPACITOR_POWER_FACTOR * (1.0 - capacitor_share))


def capacitor_loss(capacitor_share: Values) -> Values:
    """Electrical power over that with a good capacitor.

    Parameters
    ----------
    capacitor_share : float
        Capacitance over that on the label. [-]

    Returns
    -------
    float
        [-]
    """
    return 1.0 + CAPACITOR_LOSS * (1.0 - capacitor_share)


def added_current(*loads: tuple[Values, Values, Values]) -> Values:
    """Current of loads on the same two wires, each with its own power factor.

    Parameters
    ----------
    *loads : tuple
        Power [W], current [A] and voltage [V] of each; all lag.

    Returns
    -------
    float
        Working and idle parts added apart, then as a phasor. [A]
    """
    working: Values = 0.0
    idle: Values = 0.0
    for power, current, voltage in loads:
        active = power / voltage
        working = working + active
        idle = idle + np.sqrt(np.maximum(current**2 - active**2, 0.0))
    return np.sqrt(working**2 + idle**2)
