"""The type of a number that may also be a batch of numbers."""

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Array: TypeAlias = NDArray[np.float64]
Index: TypeAlias = NDArray[np.intp]
Mask: TypeAlias = NDArray[np.bool_]
Values: TypeAlias = float | Array
