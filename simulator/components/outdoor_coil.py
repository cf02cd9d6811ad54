"""Outdoor coil, condensing or boiling, its fan and the frost on it."""

from dataclasses import dataclass

import numpy as np

from simulator.quantities.values import Values

STILL_SHARE = 0.04  # draught through a coil whose fan stands; common practice, no source
FROST_RESISTANCE = 0.9  # of a closed coil's frost over that of the air film; chosen


@dataclass(frozen=True, slots=True, kw_only=True)
class OutdoorCoil:
    """What the outdoor coil and its fan are.

    Parameters
    ----------
    air_conductance : float
        Air side, at rated airflow. [W/K]
    two_phase_conductance : float
        Refrigerant side while condensing, at rated flow. [W/K]
    boiling_conductance : float
        Refrigerant side while boiling, at rated flow. [W/K]
    vapour_conductance : float
        Refrigerant side on superheated vapour, at rated flow. [W/K]
    liquid_conductance : float
        Refrigerant side on liquid, at rated flow. [W/K]
    airflow : float
        Clean coil. [m³/s]
    blocked_fraction : float
        Part of the airflow lost to dirt. [-]
    fan_fraction : float
        Speed of the fan over its own. [-]
    frost : float
        Ice on the fins. [kg]
    frost_capacity : float
        Ice that closes the coil. [kg]
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
    boiling_conductance: Values
    vapour_conductance: Values
    liquid_conductance: Values
    airflow: Values
    blocked_fraction: Values
    fan_fraction: Values
    frost: Values
    frost_capacity: Values
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
        Never less than the draught of a standing fan, which frost closes too. [m³/s]
    """
    blown = (1.0 - coil.blocked_fraction) * coil.fan_fraction
    return coil.airflow * np.maximum(blown, STILL_SHARE) * _passage(coil) ** 1.5


def _passage(coil: OutdoorCoil) -> Values:
    """Free part of the passages between frosted fins."""
    return np.clip(1.0 - coil.frost / coil.frost_capacity, 0.03, 1.0)


def air_conductance(coil: OutdoorCoil) -> Values:
    """Conductance of the air side at the present airflow, through the frost.

    Parameters
    ----------
    coil : OutdoorCoil
        The coil.

    Returns
    -------
    float
        [W/K]

    References
    ----------
    .. [1] O'Neal, D. L. and Tree, D. R., "A review of frost formation in simple
       geometries", ASHRAE Transactions 91(2A), 1985: conduction through the layer; its size
       is common practice, no source.
    """
    moved = outdoor_airflow(coil) / coil.airflow
    layer = 1.0 + FROST_RESISTANCE * (1.0 - _passage(coil))
    return coil.air_conductance * np.sqrt(moved) / layer


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
    resisted = 1.0 + 0.65 * np.maximum(coil.blocked_fraction, 1.0 - _passage(coil))
    return coil.fan_power * coil.fan_fraction * resisted


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
