"""What the fit of a published unit may move."""

from dataclasses import replace
from typing import NamedTuple

import numpy as np

from simulator.plant.installation import Unit
from simulator.quantities.values import Array


class Lever(NamedTuple):
    """Parameters that move together, how far is believable and how far allowed [-].

    A belief is of natural logarithms, bounds are over the scaled guess.
    """

    part: str
    keys: tuple[str, ...]
    belief: float
    low: float
    high: float


# Beliefs are of natural logarithms; what a sheet does not settle stays near the guess.
LEVERS = (
    Lever("compressor", ("displacement",), 0.3, 0.4, 2.5),
    Lever("compressor", ("best_efficiency",), 0.08, 0.6, 1.12),
    Lever("indoor_coil", ("air_conductance",), 0.3, 0.4, 2.5),
    Lever("outdoor_coil", ("air_conductance", "two_phase_conductance"), 0.35, 0.3, 3.0),
    Lever("outdoor_coil", ("boiling_conductance",), 0.35, 0.3, 3.0),
    Lever("indoor_coil", ("dry_conductance", "condensing_conductance"), 0.35, 0.3, 3.0),
    Lever("compressor", ("volumetric_slope",), 0.5, 0.2, 4.0),
    Lever("compressor", ("efficiency_curvature",), 0.6, 0.2, 4.0),
)


def moved(unit: Unit, place: Array) -> Unit:
    """A unit with its levers moved.

    Parameters
    ----------
    unit : Unit
        Where they stand at zero.
    place : array
        Logarithms, in the order of ``LEVERS``. [-]

    Returns
    -------
    Unit
    """
    for lever, factor in zip(LEVERS, np.exp(place), strict=True):
        part = getattr(unit, lever.part)
        changed = {key: float(getattr(part, key) * factor) for key in lever.keys}
        unit = replace(unit, **{lever.part: replace(part, **changed)})
    return unit
