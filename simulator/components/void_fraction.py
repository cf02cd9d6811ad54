"""How much refrigerant a length of tube holds."""

import numpy as np

from simulator.quantities.values import Values


def _log1p_over(value: Values) -> Values:
    """log(1 + y) / y, safe at zero."""
    safe = np.where(value == 0.0, 1e-30, value)
    return np.log1p(safe) / safe


def mean_two_phase_density(
    quality_in: Values, quality_out: Values, liquid_density: Values, vapour_density: Values
) -> Values:
    """Mean density where quality runs evenly between two values.

    Parameters
    ----------
    quality_in, quality_out : float
        Vapour share by mass at both ends, in any order. [-]
    liquid_density, vapour_density : float
        Saturated. [kg/m³]

    Returns
    -------
    float
        [kg/m³]

    References
    ----------
    .. [1] Zivi, S. M., "Estimation of steady-state steam void-fraction by means of the
       principle of minimum entropy production", J. Heat Transfer 86, 1964; integrated here
       over quality.

    Examples
    --------
    >>> round(float(mean_two_phase_density(1.0, 1.0, 1000.0, 100.0)), 6)
    100.0
    """
    slip = (vapour_density / liquid_density) ** (2.0 / 3.0)
    rest = 1.0 - slip
    start = slip + rest * quality_in
    step = rest * (quality_out - quality_in) / start
    void = (1.0 - slip / start * _log1p_over(step)) / rest
    return liquid_density - void * (liquid_density - vapour_density)
