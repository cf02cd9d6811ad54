"""Saturated water vapour, over liquid and over ice."""

import numpy as np

from simulator.quantities.values import Array, Values

TRIPLE_POINT = 273.16  # colder, the vapour is over ice [K]


def saturation_pressure(temperature: Values) -> Array:
    """Pressure of water vapour over liquid, over ice below freezing.

    Parameters
    ----------
    temperature : float
        [K]

    Returns
    -------
    array
        [Pa]

    References
    ----------
    .. [1] ASHRAE Handbook, Fundamentals 2017, ch. 1, eqs. 5 and 6 (Hyland and Wexler 1983).

    Examples
    --------
    >>> round(float(saturation_pressure(293.15)), 1)
    2338.8
    """
    t = np.asarray(temperature, dtype=float)
    water = (
        -5.8002206e3 / t
        + 1.3914993
        + t * (-4.8640239e-2 + t * (4.1764768e-5 - 1.4452093e-8 * t))
        + 6.5459673 * np.log(t)
    )
    if t.min() >= TRIPLE_POINT:
        liquid: Array = np.exp(water)
        return liquid
    ice = (
        -5.6745359e3 / t
        + 6.3925247
        + t * (-9.677843e-3 + t * (6.2215701e-7 + t * (2.0747825e-9 - 9.484024e-13 * t)))
        + 4.1635019 * np.log(t)
    )
    found: Array = np.exp(np.where(t >= TRIPLE_POINT, water, ice))
    return found


def logarithmic_slope(temperature: Array) -> Array:
    """Slope of the logarithm of ``saturation_pressure``, by differentiating its formulas.

    Parameters
    ----------
    temperature : array
        [K]

    Returns
    -------
    array
        [1/K]
    """
    t = temperature
    water: Array = (
        5.8002206e3 / (t * t) - 4.8640239e-2 + t * (8.3529536e-5 - 4.3356279e-8 * t) + 6.5459673 / t
    )
    if t.min() >= TRIPLE_POINT:
        return water
    ice = (
        5.6745359e3 / (t * t)
        - 9.677843e-3
        + t * (1.24431402e-6 + t * (6.2242475e-9 - 3.7936096e-12 * t))
        + 4.1635019 / t
    )
    return np.where(t >= TRIPLE_POINT, water, ice)
