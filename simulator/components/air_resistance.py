"""Resistances of filter, coil and ducts, and openings that bypass them."""

import numpy as np

from simulator.quantities.values import Values

DISCHARGE_COEFFICIENT = 0.6  # sharp-edged opening, ASHRAE Fundamentals ch. 16
# Dry air in a cubic metre at 80/67 °F and sea level, for which drops are stated [kg/m³].
STATED_AIR = 1.157


def square_resistance(drop: Values, airflow: Values, density: Values = STATED_AIR) -> Values:
    """Resistance of a square-law element from one known point.

    Parameters
    ----------
    drop : float
        At that airflow, in air as drops are stated for. [Pa]
    airflow : float
        [m³/s]
    density : float
        Of the air that flows. [kg/m³]

    Returns
    -------
    float
        [Pa s²/m⁶]

    Examples
    --------
    Half an inch of water at 1,200 cfm is 0.281 at 900 cfm:

    >>> round(square_resistance(0.5, 1200) * 900**2, 3)
    0.281
    """
    return drop / airflow**2 * (density / STATED_AIR)


def coil_resistance(drop: Values, airflow: Values, density: Values = STATED_AIR) -> Values:
    """Resistance of a coil, whose drop goes with the power 1.8 of its flow.

    Parameters
    ----------
    drop : float
        At that airflow, in air as drops are stated for. [Pa]
    airflow : float
        [m³/s]
    density : float
        Of the air that flows. [kg/m³]

    Returns
    -------
    float
        Friction that falls with the fifth root of the Reynolds number goes with the power 0.8
        of density (Blasius). [Pa (s/m³)^1.8]
    """
    return drop / airflow**1.8 * (density / STATED_AIR) ** 0.8


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
