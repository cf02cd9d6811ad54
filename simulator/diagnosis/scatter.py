"""What differs from house to house without being a fault, as seeded draws of unit size."""

from dataclasses import replace
from typing import NamedTuple

import numpy as np

from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.quantities.values import Array

# One standard deviation each; common practice, no source.
CHARGE = 0.012  # of the plate's charge [-]
TORQUE = 0.035  # of the blower's set torque [-]
INDOOR_COIL = 0.008  # of its outer conductance [-]
OUTDOOR_COIL = 0.008  # of its outer conductance [-]
DUCT_DROP = 0.015  # of the ducts' drops [-]
FILTER = 0.05  # of a clean filter's resistance [-]
OUTDOOR = 1.5  # what a work order's weather leaves open [K]
ROOM = 0.8  # [K]
ROOM_WATER = 0.0005  # [kg/kg]
OUTDOOR_WATER = 0.0008  # [kg/kg]
SUN = 0.10  # of the clear sky's [-]
VOLTAGE = 0.006  # of the supply's [-]
NAMES = (
    "charge",
    "torque",
    "indoor_coil",
    "outdoor_coil",
    "duct_drop",
    "filter",
    "outdoor",
    "room",
    "room_water",
    "outdoor_water",
    "sun",
    "voltage",
)
OUTDOOR_COLUMN = NAMES.index("outdoor")


class Around(NamedTuple):
    """An installation and its conditions; floats or arrays of shape (n,)."""

    installation: Installation
    conditions: Conditions


def draws(count: int, width: int, seed: int) -> Array:
    """Draws of zero mean and unit variance whose columns do not lean on each other.

    Parameters
    ----------
    count, width : int
        Rows, at least three more than columns; columns.
    seed : int
        Of the draws.

    Returns
    -------
    array
        Shape (count, width). [-]
    """
    raw = np.random.default_rng(seed).standard_normal((count, width))
    raw -= raw.mean(axis=0)
    left, _, right = np.linalg.svd(raw, full_matrices=False)
    return np.asarray(np.sqrt(count) * left @ right)


def scattered(around: Around, drawn: Array) -> Around:
    """The same house as its neighbours have it.

    Parameters
    ----------
    around : Around
        Nominal; floats.
    drawn : array
        One column for each of ``NAMES``, shape (n, 12). [-]

    Returns
    -------
    Around
        Arrays of shape (n,).
    """
    z = dict(zip(NAMES, drawn.T, strict=True))
    return Around(_unit(around.installation, z), _weather(around.conditions, z))


def _unit(installation: Installation, z: dict[str, Array]) -> Installation:
    unit, ducts = installation.unit, installation.ducts
    indoor, outdoor, blower = unit.indoor_coil, unit.outdoor_coil, unit.blower
    inner, outer = 1.0 + INDOOR_COIL * z["indoor_coil"], 1.0 + OUTDOOR_COIL * z["outdoor_coil"]
    drop = 1.0 + DUCT_DROP * z["duct_drop"]
    return replace(
        installation,
        unit=replace(
            unit,
            charge=unit.charge * (1.0 + CHARGE * z["charge"]),
            blower=replace(blower, set_torque=blower.set_torque * (1.0 + TORQUE * z["torque"])),
            indoor_coil=replace(
                indoor,
                air_conductance=indoor.air_conductance * inner,
                dry_conductance=indoor.dry_conductance * inner,
            ),
            outdoor_coil=replace(outdoor, air_conductance=outdoor.air_conductance * outer),
        ),
        ducts=replace(
            ducts,
            return_drop=ducts.return_drop * drop,
            supply_drop=ducts.supply_drop * drop,
            return_grille_drop=ducts.return_grille_drop * drop,
            supply_branch_drop=ducts.supply_branch_drop * drop,
            filter_loading=ducts.filter_loading + FILTER * np.abs(z["filter"]),
        ),
    )


def _weather(conditions: Conditions, z: dict[str, Array]) -> Conditions:
    def wet(water: Array, size: float, name: str) -> Array:
        return np.maximum(water + size * z[name], 1e-4)

    return replace(
        conditions,
        outdoor_temperature=conditions.outdoor_temperature + OUTDOOR * z["outdoor"],
        outdoor_humidity_ratio=wet(
            np.asarray(conditions.outdoor_humidity_ratio), OUTDOOR_WATER, "outdoor_water"
        ),
        indoor_temperature=conditions.indoor_temperature + ROOM * z["room"],
        indoor_humidity_ratio=wet(
            np.asarray(conditions.indoor_humidity_ratio), ROOM_WATER, "room_water"
        ),
        solar=np.maximum(conditions.solar * (1.0 + SUN * z["sun"]), 0.0),
        voltage=conditions.voltage * (1.0 + VOLTAGE * z["voltage"]),
    )
