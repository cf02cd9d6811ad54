"""The plant's own balances, solved one by one with SciPy on CoolProp's properties."""

from typing import Any

import numpy as np
from scipy.optimize import root

from simulator.plant import balance, steady
from simulator.plant.case import prepared
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from tests.reference.plain_fluid import PlainFluid


def solved(installation: Installation, conditions: Conditions) -> Any:
    """The seven unknowns; raises RuntimeError where SciPy gives up."""
    case = prepared(installation, conditions)
    start = steady.first_guess(case, 1)[:, 0]
    fluid: Any = PlainFluid(installation.unit.refrigerant)
    case = case._replace(fluid=fluid)

    def residual(unknowns: Any) -> Any:
        return np.ravel(balance.residuals(np.asarray(unknowns), case))

    found = root(residual, start, method="hybr", tol=1e-8)
    if not found.success:
        raise RuntimeError(found.message)
    return found.x
