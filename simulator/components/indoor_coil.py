"""Indoor coil, wet or dry, boiling or condensing."""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from simulator.properties import saturated_air
from simulator.quantities.values import Values


@dataclass(frozen=True, slots=True, kw_only=True)
class IndoorCoil:
    """What the indoor coil is.

    Parameters
    ----------
    air_conductance : float
        Air side, at rated airflow. [W/K]
    two_phase_conductance : float
        Refrigerant side while boiling, at rated flow. [W/K]
    dry_conductance : float
        Air side of the dry coil that heats air, at rated airflow. [W/K]
    condensing_conductance : float
        Refrigerant side while condensing, at rated flow. [W/K]
    vapour_conductance : float
        Refrigerant side on superheated vapour, at rated flow. [W/K]
    liquid_conductance : float
        Refrigerant side on liquid, at rated flow. [W/K]
    condensing_drop : float
        Vapour pipe to liquid pipe while condensing, at rated flow. [Pa]
    ice : float
        Part of the passages closed by ice. [-]
    tube_volume : float
        Refrigerant side. [m³]
    rated_airflow : float
        Where the air conductance holds. [m³/s]
    wet_pressure_drop : float
        Of the wet coil at rated airflow. [Pa]
    dry_share : float
        Drop of the dry coil over the wet one. [-]
    """

    air_conductance: Values
    two_phase_conductance: Values
    dry_conductance: Values
    condensing_conductance: Values
    vapour_conductance: Values
    liquid_conductance: Values
    condensing_drop: Values
    ice: Values
    tube_volume: Values
    rated_airflow: Values
    wet_pressure_drop: Values
    dry_share: Values


class CoilAir(NamedTuple):
    """Air at the coil: entering state and flow, all arrays or floats."""

    temperature: Values
    humidity_ratio: Values
    enthalpy: Values
    mass_flow: Values
    heat_capacity: Values
    pressure: Values


def free_passage(coil: IndoorCoil) -> Values:
    """Free part of the passages between iced fins.

    Parameters
    ----------
    coil : IndoorCoil
        The coil.

    Returns
    -------
    float
        Some air always finds a way. [-]
    """
    return 1.0 - 0.97 * coil.ice


def boiling_heat(
    air: CoilAir, refrigerant_temperature: Values, air_conductance: Values, inner: Values
) -> Values:
    """Heat a fully boiling coil takes from the air.

    The larger of the dry coil and the wet coil on enthalpy potential, joined
    smoothly; a coil half wet takes about the larger of the two.

    Parameters
    ----------
    air : CoilAir
        Entering air.
    refrigerant_temperature : float
        Boiling point. [K]
    air_conductance : float
        Air side of the whole coil. [W/K]
    inner : float
        Refrigerant side of the whole coil. [W/K]

    Returns
    -------
    float
        [W]

    References
    ----------
    .. [1] Braun, Klein and Mitchell, "Effectiveness models for cooling towers and
       cooling coils", ASHRAE Transactions 95(2), 1989: fictitious saturated-air
       enthalpy at the refrigerant temperature.
    """
    capacity = air.mass_flow * air.heat_capacity
    dry_conductance = air_conductance * inner / (air_conductance + inner)
    dry = -np.expm1(-dry_conductance / capacity) * capacity
    dry = dry * (air.temperature - refrigerant_temperature)
    both = np.array([refrigerant_temperature, refrigerant_temperature + 5.0])
    saturated, warmer = saturated_air.saturated_enthalpy(both, air.pressure)
    slope = (warmer - saturated) / 5.0 / air.heat_capacity
    transfer_units = air_conductance / capacity / (1.0 + slope * air_conductance / inner)
    wet = -np.expm1(-transfer_units) * air.mass_flow * (air.enthalpy - saturated)
    half = 0.5 * (wet - dry)
    blunt = 0.01 * (np.abs(wet) + np.abs(dry)) + 1.0
    larger: Values = 0.5 * (wet + dry) + np.sqrt(half * half + blunt * blunt) - blunt
    return larger


def sensible_heat(air: CoilAir, heat: Values, wet_share: Values, air_conductance: Values) -> Values:
    """Sensible part of the heat taken by the boiling part of the coil.

    Parameters
    ----------
    air : CoilAir
        Entering air.
    heat : float
        Total heat of the boiling part. [W]
    wet_share : float
        Part of the coil that boils. [-]
    air_conductance : float
        Air side of the whole coil. [W/K]

    Returns
    -------
    float
        Never above the total. [W]

    References
    ----------
    .. [1] ASHRAE Handbook, HVAC Systems and Equipment, Air-Cooling and
       Dehumidifying Coils: effective surface temperature and bypass factor.
    """
    share = np.maximum(wet_share, 1e-6)
    contact = -np.expm1(-air_conductance / (air.mass_flow * air.heat_capacity))
    surface_enthalpy = air.enthalpy - heat / (air.mass_flow * share * contact)
    surface = saturated_air.temperature_at_saturated_enthalpy(surface_enthalpy, air.pressure)
    sensible = air.mass_flow * share * air.heat_capacity * contact * (air.temperature - surface)
    return np.minimum(sensible, heat)
