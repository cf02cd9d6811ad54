"""Moist air: ideal mixture of dry air and water vapour, ASHRAE formulation."""

import numpy as np

from simulator.properties.water_vapour import saturation_pressure
from simulator.quantities.values import Array, Values

ZERO_CELSIUS = 273.15  # [K]
STANDARD_PRESSURE = 101325.0  # [Pa]
DRY_GAS_CONSTANT = 287.042  # [J/(kg K)], ASHRAE Handbook, Fundamentals 2017, ch. 1, eq. 1
MASS_RATIO = 0.621945  # water over dry air, same chapter, eq. 20
# Enthalpy of dry air and of vapour, same chapter, eqs. 28 to 30.
DRY_HEAT_CAPACITY = 1006.0  # [J/(kg K)]
VAPOUR_HEAT_CAPACITY = 1860.0  # [J/(kg K)]
EVAPORATION_AT_ZERO = 2501000.0  # [J/kg]
LIQUID_HEAT_CAPACITY = 4186.0  # [J/(kg K)]


def standard_pressure(altitude: Values) -> Values:
    """Barometric pressure of the standard atmosphere.

    Parameters
    ----------
    altitude : float
        Above sea level. [m]

    Returns
    -------
    float
        [Pa]

    References
    ----------
    .. [1] ASHRAE Handbook, Fundamentals 2017, ch. 1, eq. 3.
    """
    return STANDARD_PRESSURE * (1.0 - 2.25577e-5 * np.asarray(altitude)) ** 5.2559


def saturated_humidity_ratio(temperature: Values, pressure: Values) -> Array:
    """Humidity ratio of saturated air.

    Parameters
    ----------
    temperature : float
        [K]
    pressure : float
        Barometric. [Pa]

    Returns
    -------
    array
        [kg/kg]
    """
    vapour = np.minimum(saturation_pressure(temperature), 0.9 * np.asarray(pressure))
    return MASS_RATIO * vapour / (pressure - vapour)


def humidity_ratio(temperature: Values, relative_humidity: Values, pressure: Values) -> Array:
    """Humidity ratio from relative humidity.

    Parameters
    ----------
    temperature : float
        [K]
    relative_humidity : float
        [-]
    pressure : float
        Barometric. [Pa]

    Returns
    -------
    array
        [kg/kg]
    """
    vapour = relative_humidity * saturation_pressure(temperature)
    return MASS_RATIO * vapour / (pressure - vapour)


def humidity_ratio_from_wet_bulb(
    temperature: Values, wet_bulb_temperature: Values, pressure: Values
) -> Array:
    """Humidity ratio from a wet-bulb temperature above freezing.

    Parameters
    ----------
    temperature, wet_bulb_temperature : float
        [K]
    pressure : float
        Barometric. [Pa]

    Returns
    -------
    array
        [kg/kg]

    References
    ----------
    .. [1] ASHRAE Handbook, Fundamentals 2017, ch. 1, eq. 33.
    """
    dry = np.asarray(temperature) - ZERO_CELSIUS
    wet = np.asarray(wet_bulb_temperature) - ZERO_CELSIUS
    full = saturated_humidity_ratio(wet_bulb_temperature, pressure)
    drying = VAPOUR_HEAT_CAPACITY - LIQUID_HEAT_CAPACITY
    return ((EVAPORATION_AT_ZERO + drying * wet) * full - DRY_HEAT_CAPACITY * (dry - wet)) / (
        EVAPORATION_AT_ZERO + VAPOUR_HEAT_CAPACITY * dry - LIQUID_HEAT_CAPACITY * wet
    )


def wet_bulb(temperature: Values, humidity: Values, pressure: Values) -> Array:
    """Thermodynamic wet-bulb temperature.

    Parameters
    ----------
    temperature : float
        [K]
    humidity : float
        Ratio. [kg/kg]
    pressure : float
        Barometric. [Pa]

    Returns
    -------
    array
        Settled to 1e-9. [K]
    """
    dry = np.asarray(temperature, dtype=float)
    guess = np.minimum(dry, dew_point(humidity, pressure) * 0.6 + dry * 0.4)
    for _ in range(8):
        value = humidity_ratio_from_wet_bulb(dry, guess, pressure) - humidity
        slope = (
            humidity_ratio_from_wet_bulb(dry, guess + 1e-3, pressure) - humidity - value
        ) / 1e-3
        guess = np.minimum(guess - value / slope, dry + 0.5)
    found: Array = np.minimum(guess, dry)
    return found


def relative_humidity(temperature: Values, humidity: Values, pressure: Values) -> Array:
    """Relative humidity from humidity ratio.

    Parameters
    ----------
    temperature : float
        [K]
    humidity : float
        Ratio. [kg/kg]
    pressure : float
        Barometric. [Pa]

    Returns
    -------
    array
        [-]
    """
    vapour = np.asarray(pressure) * humidity / (MASS_RATIO + humidity)
    return vapour / saturation_pressure(temperature)


def dew_point(humidity: Values, pressure: Values) -> Array:
    """Temperature at which moisture begins to condense.

    Parameters
    ----------
    humidity : float
        Ratio. [kg/kg]
    pressure : float
        Barometric. [Pa]

    Returns
    -------
    array
        [K]
    """
    vapour = np.asarray(pressure) * np.maximum(humidity, 1e-6) / (MASS_RATIO + humidity)
    log = np.log(vapour / 610.9)
    guess = ZERO_CELSIUS + 243.04 * log / (17.625 - log)  # Magnus form as first guess
    for _ in range(4):
        off = np.log(saturation_pressure(guess)) - np.log(vapour)
        guess = guess - off * guess * guess / 5400.0
    return guess


def enthalpy(temperature: Values, humidity: Values) -> Array:
    """Enthalpy per unit of dry air, zero for dry air at 0 °C.

    Parameters
    ----------
    temperature : float
        [K]
    humidity : float
        Ratio. [kg/kg]

    Returns
    -------
    array
        [J/kg]

    References
    ----------
    .. [1] ASHRAE Handbook, Fundamentals 2017, ch. 1, eq. 30.
    """
    celsius = np.asarray(temperature) - ZERO_CELSIUS
    vapour = EVAPORATION_AT_ZERO + VAPOUR_HEAT_CAPACITY * celsius
    return DRY_HEAT_CAPACITY * celsius + humidity * vapour


def temperature_from_enthalpy(air_enthalpy: Values, humidity: Values) -> Array:
    """Temperature from enthalpy and humidity ratio.

    Parameters
    ----------
    air_enthalpy : float
        [J/kg]
    humidity : float
        Ratio. [kg/kg]

    Returns
    -------
    array
        [K]
    """
    rest = np.asarray(air_enthalpy) - EVAPORATION_AT_ZERO * np.asarray(humidity)
    return ZERO_CELSIUS + rest / heat_capacity(humidity)


def humidity_ratio_from_enthalpy(temperature: Values, air_enthalpy: Values) -> Array:
    """Humidity ratio from temperature and enthalpy.

    Parameters
    ----------
    temperature : float
        [K]
    air_enthalpy : float
        [J/kg]

    Returns
    -------
    array
        [kg/kg]
    """
    celsius = np.asarray(temperature) - ZERO_CELSIUS
    return (air_enthalpy - DRY_HEAT_CAPACITY * celsius) / (
        EVAPORATION_AT_ZERO + VAPOUR_HEAT_CAPACITY * celsius
    )


def heat_capacity(humidity: Values) -> Array:
    """Heat capacity per unit of dry air.

    Parameters
    ----------
    humidity : float
        Ratio. [kg/kg]

    Returns
    -------
    array
        [J/(kg K)]
    """
    return DRY_HEAT_CAPACITY + VAPOUR_HEAT_CAPACITY * np.asarray(humidity)


def density(temperature: Values, humidity: Values, pressure: Values) -> Array:
    """Dry air per volume of moist air.

    Parameters
    ----------
    temperature : float
        [K]
    humidity : float
        Ratio. [kg/kg]
    pressure : float
        Barometric. [Pa]

    Returns
    -------
    array
        [kg/m³]

    References
    ----------
    .. [1] ASHRAE Handbook, Fundamentals 2017, ch. 1, eq. 26.
    """
    moist = DRY_GAS_CONSTANT * np.asarray(temperature) * (1.0 + np.asarray(humidity) / MASS_RATIO)
    return np.asarray(pressure) / moist
