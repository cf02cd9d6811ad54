"""Air-cooled condensing coil and its fan."""

from dataclasses import dataclass

import numpy as np

from simulator.quantities.values import Values


@dataclass(frozen=True, slots=True, kw_only=True)
class OutdoorCoil:
    """What the outdoor coil and its fan are.

    Parameters
    ----------
    air_conductance : float
        Air side, at rated airflow. [W/K]
    two_phase_conductance : float
        Refrigerant side while condensing, at rated flow. [W/K]
    vapour_conductance : float
        Refrigerant side on superheated vapour, at rated flow. [W/K]
    liquid_conductance : float
        Refrigerant side on liquid, at rated flow. [W/K]
    airflow : float
        Clean coil. [m³/s]
    blocked_fraction : float
        Part of the airflow lost to dirt. [-]
    fan_power : float
        Electrical, clean coil. [W]
    fan_power_factor : float
        Of the fan motor. [-]
    tube_volume : float
        Refrigerant side. [m³]
    pressure_drop : float
        Discharge port to liquid port, at rated flow. [Pa]
    air_film_penalty : float
        Condensing resistance added per unit of air mole share. [-]
    """

    air_conductance: Values
    two_phase_conductance: Values
    vapour_conductance: Values
    liquid_conductance: Values
    airflow: Values
    blocked_fraction: Values
    fan_power: Values
    fan_power_factor: Values
    tube_volume: Values
    pressure_drop: Values
    air_film_penalty: Values


def outdoor_airflow(coil: OutdoorCoil) -> Values:
    """Air the fan still moves through the coil.

    Parameters
    ----------
    coil : OutdoorCoil
        The coil.

    Returns
    -------
    float
        [m³/s]
    """
    return coil.airflow * (1.0 - coil.blocked_fraction)


def fan_power(coil: OutdoorCoil) -> Values:
    """Electrical power of the outdoor fan.

    A propeller fan against a blocked coil works harder: its shaft power rises
    as its flow falls, by about a third at half flow.

    Parameters
    ----------
    coil : OutdoorCoil
        The coil.

    Returns
    -------
    float
        [W]

    References
    ----------
    .. [1] ASHRAE Handbook, HVAC Systems and Equipment, Fans: propeller fan power
       against flow (shape only; size is common practice, no source).
    """
    return coil.fan_power * (1.0 + 0.65 * coil.blocked_fraction)


def slice_effectiveness(conductance: Values, air_capacity: Values) -> Values:
    """Share of the possible heat that fresh air takes from one slice of coil.

    Every slice sees fresh air, so the effectiveness of the whole coil holds for
    each slice of it.

    Parameters
    ----------
    conductance : float
        Of the whole coil in this regime. [W/K]
    air_capacity : float
        Heat capacity rate of the whole air stream. [W/K]

    Returns
    -------
    float
        [-]

    References
    ----------
    .. [1] Kays and London, Compact Heat Exchangers, 3rd ed., 1984: one stream at
       constant temperature.
    """
    return -np.expm1(-conductance / air_capacity)


def in_series(first: Values, second: Values) -> Values:
    """Two thermal conductances one behind the other.

    Parameters
    ----------
    first, second : float
        [W/K]

    Returns
    -------
    float
        [W/K]
    """
    return first * second / (first + second)
