"""Whether superheat and subcooling say anything of the charge in a settled state."""

from typing import Literal

import numpy as np

from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.properties.moist_air import ZERO_CELSIUS

COLDEST = 285.93  # 55 °F outdoors, California Title 24 RA3.2 [K]
ENOUGH_AIR = 350.0 / 400.0  # of 400 cfm per ton; RA3.2 asks for minimum airflow first [-]
Obstacle = Literal["standing", "heating", "ice", "little_air", "freezing", "cold_weather"]


def is_valid(installation: Installation, point: OperatingPoint) -> bool:
    """Whether the plant stands so that a charge test by gauges means something.

    Parameters
    ----------
    installation : Installation
        As it stands.
    point : OperatingPoint
        Floats, its settled state.

    Returns
    -------
    bool
        Whether nothing is in its way.
    """
    return obstacle(installation, point) is None


def obstacle(installation: Installation, point: OperatingPoint) -> Obstacle | None:
    """What keeps a charge test by gauges from meaning anything; of several, what comes first.

    Parameters
    ----------
    installation : Installation
        As it stands.
    point : OperatingPoint
        Floats, its settled state.

    Returns
    -------
    str or None
        It stands still or heats, ice is on the indoor coil, there is too little air, ice is on
        its way, or the weather is below the method's.

    References
    ----------
    .. [1] California Title 24 RA3.2: airflow first, outdoor air of 55 °F or more; an iced coil
       is thawed before: common practice, no source.
    """
    unit = installation.unit
    in_the_way: tuple[tuple[Obstacle, bool], ...] = (
        ("standing", point.state != "running"),
        ("heating", point.mode != "cooling"),
        ("ice", float(np.asarray(unit.indoor_coil.ice)) != 0.0),
        ("little_air", float(point.airflow) < ENOUGH_AIR * float(unit.rated_airflow)),
        ("freezing", float(point.evaporating_temperature) <= ZERO_CELSIUS),
        ("cold_weather", float(point.outdoor_temperature) < COLDEST),
    )
    return next((name for name, is_so in in_the_way if is_so), None)
