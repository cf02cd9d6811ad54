"""Resistances of filter, coil and ducts, and openings that bypass them."""

import numpy as np

from simulator.quantities.values import Values

DISCHARGE_COEFFICIENT = 0.6  # sharp-edged opening, ASHRAE Fundamentals ch. 16


def square_resistance(drop: Values, airflow: Values) -> Values:
    """Resistance of a square-law element from one known point.

    Parameters
    ----------
    drop : float
        At that airflow. [Pa]
    airflow : float
        [m³/s]

    Returns
    -------
    float
        [Pa s²/m⁶]

    Examples
    --------
    Half an inch of water at 1,200 cfm is 0.281 at 900 cfm:

    >>> round(0.5 * (900 / 1200) ** 2, 3)
    0.281
    """
    return drop / airflow**2


def opening_conductance(area: Values, density: Values) -> Values:
    """Flow over root of pressure of an opening.

    Parameters
    ----------
    area : float
        [m²]
    density : float
        [kg/m³]

    Returns
    -------
    float
        [m³/s/Pa^0.5]
    """
    return DISCHARGE_COEFFICIENT * area * np.sqrt(2.0 / density)
