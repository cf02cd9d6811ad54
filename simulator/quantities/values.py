"""Numbers that may also be batches of numbers."""

from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

Array: TypeAlias = NDArray[np.float64]
Index: TypeAlias = NDArray[np.intp]
Mask: TypeAlias = NDArray[np.bool_]
Values: TypeAlias = float | Array


def held(value: Any, low: Any, high: Any) -> Any:
    """A number kept between two bounds; several times faster than ``numpy.clip`` alone.

    Parameters
    ----------
    value, low, high : float or array
        Of one unit. [-]

    Returns
    -------
    float or array
        In that unit. [-]
    """
    return np.minimum(np.maximum(value, low), high)
