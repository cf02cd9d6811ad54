"""What is held while the plant settles."""

from dataclasses import replace
from functools import partial
from typing import Any, NamedTuple

import numpy as np

from simulator.plant import air_path, stacking
from simulator.plant.air_path import AirPath
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.properties import refrigerant
from simulator.properties.refrigerant import Refrigerant
from simulator.quantities.values import Array, Index, Mask, Values

MODES = ("cooling", "heating")
TABLES_LEFT = 34500.0  # below the end of the tables, 5 psi, where nothing is worked out [Pa]


class Case(NamedTuple):
    """Parameters, weather, air path and fluid; floats or arrays of shape (n,)."""

    installation: Installation
    conditions: Conditions
    path: AirPath
    fluid: Refrigerant


class Settled(NamedTuple):
    """Unknowns of shape (7, n), which balanced, their largest imbalance, which must trip.

    ``worked_out`` is the evaluation at the unknowns where the search has left one.
    """

    unknowns: Array
    converged: Mask
    error: Array
    high_head: Mask
    low_suction: Mask
    worked_out: Any = None


def prepared(installation: Installation, conditions: Conditions) -> Case:
    """Fix what does not depend on the unknowns: fluid, voltage, strips called, air path.

    Parameters
    ----------
    installation : Installation
        Floats or arrays.
    conditions : Conditions
        Floats or arrays.

    Returns
    -------
    Case
        Ready to solve.

    Raises
    ------
    ValueError
        For an unknown mode.
    """
    fluid = refrigerant.load(installation.unit.refrigerant)
    if conditions.mode not in MODES:
        raise ValueError(f"The mode must be cooling or heating, not {conditions.mode}.")
    unit = installation.unit
    strips = replace(
        unit.strips,
        energised_power=np.maximum(
            unit.strips.energised_power, conditions.auxiliary_call * unit.strips.installed_power
        ),
    )
    coil = unit.outdoor_coil
    if conditions.mode == "cooling":
        # Ice does not stay on a coil that condenses.
        coil = replace(coil, frost=0.0 * coil.frost)
    installation = replace(installation, unit=replace(unit, strips=strips, outdoor_coil=coil))
    conditions = replace(conditions, voltage=conditions.voltage * (1.0 - unit.supply_circuit.sag))
    return Case(installation, conditions, air_path.settle(installation, conditions), fluid)


def high_limit(case: Case) -> Values:
    """Pressure at which the unit trips.

    Parameters
    ----------
    case : Case
        Its high cut-out, and the refrigerant in the circuit.

    Returns
    -------
    float
        The switch's own, or the end of the tables where another refrigerant than the plate's
        ends below it: a trip is reported there, never a number. [Pa]
    """
    end = case.fluid.highest_pressure - TABLES_LEFT
    found: Values = np.minimum(case.installation.unit.high_cut_out, end)
    return found


def chosen_case(case: Case, columns: Index) -> Case:
    """A case for some members of the batch.

    Parameters
    ----------
    case : Case
        Of shape (n,).
    columns : array
        Which members. [-]

    Returns
    -------
    Case
        Of shape (m,).
    """
    take = partial(stacking.chosen, index=columns)
    parts: Any = (stacking.chosen((part,), columns)[0] for part in case.path)
    path = air_path.AirPath(*parts)
    return Case(take(case.installation), take(case.conditions), path, case.fluid)
