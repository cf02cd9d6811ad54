"""Start-up, and what an instrument sees while the plant still settles."""

from dataclasses import dataclass, replace

import numpy as np

from simulator.plant import steady
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint

# While a unit stands, part of the charge collects in the compressor's oil and the indoor
# coil; it returns over minutes. Size and time constant are common practice, no source.
MIGRATED_SHARE = 0.14
RETURN_TIME = 150.0  # [s]
SETTLED_AFTER = 900.0  # 15 minutes, California Title 24 RA3.2 [s]


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """What surrounds an instrument at one minute.

    Parameters
    ----------
    now : OperatingPoint
        Quasi-steady state at this minute.
    before : OperatingPoint
        State before the last change: start, stop or repair.
    seconds : float
        Since that change. [s]
    """

    now: OperatingPoint
    before: OperatingPoint
    seconds: float


def returned_charge(seconds: float) -> float:
    """Share of the charge taking part, some time after the start.

    Parameters
    ----------
    seconds : float
        Since the compressor started. [s]

    Returns
    -------
    float
        Towards 1. [-]
    """
    return float(1.0 - MIGRATED_SHARE * np.exp(-max(seconds, 0.0) / RETURN_TIME))


def quasi_steady(
    installation: Installation, conditions: Conditions, seconds: float
) -> OperatingPoint:
    """State of a running unit some time after its start.

    Parameters
    ----------
    installation : Installation
        As it stands.
    conditions : Conditions
        Weather, rooms, supply.
    seconds : float
        Since the compressor started, or since its charge was last changed. [s]

    Returns
    -------
    OperatingPoint
        Solved with the charge that has returned by then.
    """
    return steady.solve(since_start(installation, seconds), conditions)


def since_start(installation: Installation, seconds: float) -> Installation:
    """A unit with the charge that takes part some time after its start.

    Parameters
    ----------
    installation : Installation
        As it stands.
    seconds : float
        Since the compressor started, or since its charge was last changed. [s]

    Returns
    -------
    Installation
    """
    unit = installation.unit
    active = replace(unit, charge=unit.charge * returned_charge(seconds))
    return replace(installation, unit=active)
