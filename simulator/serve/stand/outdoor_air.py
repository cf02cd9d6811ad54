"""Humidity of air from its two thermometers, over water and over ice."""

from functools import lru_cache

from simulator.properties import moist_air
from simulator.serve.stand.limits import H1

# Ice on the wet bulb: its heat of sublimation and of cooling.
SUBLIMATION = 2830000.0  # [J/kg]
ICE_AND_VAPOUR = 240.0  # [J/(kg K)]
ICE_HEAT_CAPACITY = 2100.0  # [J/(kg K)]


def humidity_of(dry_bulb: float, wet_bulb: float, pressure: float) -> float:
    """Humidity ratio from dry and wet bulb.

    Parameters
    ----------
    dry_bulb, wet_bulb : float
        [K]
    pressure : float
        Barometric. [Pa]

    Returns
    -------
    float
        Not above zero where no air has such a pair. [kg/kg]

    References
    ----------
    .. [1] ASHRAE Handbook, Fundamentals 2017, ch. 1, eqs. 33 and 35.
    """
    if wet_bulb >= moist_air.ZERO_CELSIUS:
        return float(moist_air.humidity_ratio_from_wet_bulb(dry_bulb, wet_bulb, pressure))
    dry, wet = dry_bulb - moist_air.ZERO_CELSIUS, wet_bulb - moist_air.ZERO_CELSIUS
    full = float(moist_air.saturated_humidity_ratio(wet_bulb, pressure))
    held = (SUBLIMATION - ICE_AND_VAPOUR * wet) * full - moist_air.DRY_HEAT_CAPACITY * (dry - wet)
    return held / (SUBLIMATION + moist_air.VAPOUR_HEAT_CAPACITY * dry - ICE_HEAT_CAPACITY * wet)


@lru_cache
def winter_humidity() -> float:
    """Relative humidity outdoors of a winter's day, where no wet bulb is given.

    Returns
    -------
    float
        That of the rating point. [-]
    """
    water = humidity_of(*H1, moist_air.STANDARD_PRESSURE)
    return float(moist_air.relative_humidity(H1[0], water, moist_air.STANDARD_PRESSURE))
