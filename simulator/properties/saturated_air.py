"""Air saturated with water: its enthalpy, the way back, and fog."""

from functools import lru_cache

import numpy as np

from simulator.properties import moist_air
from simulator.properties.water_vapour import (
    TRIPLE_POINT,
    logarithmic_slope,
    saturation_pressure,
)
from simulator.quantities.values import Array, Values


def saturated_enthalpy(temperature: Values, pressure: Values) -> Array:
    """Enthalpy of saturated air.

    Parameters
    ----------
    temperature : float
        [K]
    pressure : float
        Barometric. [Pa]

    Returns
    -------
    array
        [J/kg]
    """
    return moist_air.enthalpy(
        temperature, moist_air.saturated_humidity_ratio(temperature, pressure)
    )


@lru_cache
def _saturated_nodes() -> tuple[Array, Array]:
    """Temperatures [K] and enthalpies of saturated air at sea level [J/kg]."""
    # So close that a straight line between two is within 2e-5 K; one at the bend.
    nodes = np.sort(np.append(np.linspace(223.15, 338.15, 2301), TRIPLE_POINT))
    return nodes, saturated_enthalpy(nodes, moist_air.STANDARD_PRESSURE)


def temperature_at_saturated_enthalpy(air_enthalpy: Values, pressure: Values) -> Array:
    """Temperature of saturated air from its enthalpy.

    Parameters
    ----------
    air_enthalpy : float
        [J/kg]
    pressure : float
        Barometric. [Pa]

    Returns
    -------
    array
        Within 1e-6 between -45 and 60 °C. [K]
    """
    wanted = np.asarray(air_enthalpy, dtype=float)
    # The enthalpy above that of dry air grows as one over the pressure: begin at sea level.
    nodes, levels = _saturated_nodes()
    guess: Array = np.asarray(np.interp(wanted, levels, nodes), dtype=np.float64)
    at_sea_level = np.all(np.asarray(pressure) == moist_air.STANDARD_PRESSURE)
    for _ in range(1 if at_sea_level else 4):
        vapour = saturation_pressure(guess)
        vapour = np.minimum(vapour, 0.5 * np.asarray(pressure))
        ratio = moist_air.MASS_RATIO * vapour / (pressure - vapour)
        slope = ratio * (1.0 + ratio / moist_air.MASS_RATIO) * logarithmic_slope(guess)
        celsius = guess - moist_air.ZERO_CELSIUS
        latent = moist_air.EVAPORATION_AT_ZERO + moist_air.VAPOUR_HEAT_CAPACITY * celsius
        off = moist_air.DRY_HEAT_CAPACITY * celsius + ratio * latent - wanted
        guess = guess - off / (moist_air.heat_capacity(ratio) + slope * latent)
    return guess


def without_fog(enthalpy: Values, humidity: Values, pressure: Values) -> Values:
    """Humidity ratio with any fog taken out at constant enthalpy.

    Parameters
    ----------
    enthalpy : float
        [J/kg]
    humidity : float
        Ratio, fog included. [kg/kg]
    pressure : float
        Barometric. [Pa]

    Returns
    -------
    float
        At most that of saturated air of the enthalpy, within 0.1 %. [kg/kg]
    """
    for _ in range(3):
        temperature = moist_air.temperature_from_enthalpy(enthalpy, humidity)
        full = moist_air.saturated_humidity_ratio(temperature, pressure)
        fog = np.maximum(humidity - full, 0.0)
        if not fog.any():
            break
        # What falls out warms the air, and warmer air holds more.
        warming = moist_air.EVAPORATION_AT_ZERO / moist_air.heat_capacity(humidity)
        held = full * logarithmic_slope(temperature) * warming
        humidity = humidity - fog / (1.0 + held)
    return humidity
