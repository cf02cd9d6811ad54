"""Whether superheat and subcooling say anything of the charge in a settled state."""

import numpy as np

from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.properties.moist_air import ZERO_CELSIUS

COLDEST = 285.93  # 55 °F outdoors, California Title 24 RA3.2 [K]
ENOUGH_AIR = 350.0 / 400.0  # of 400 cfm per ton; RA3.2 asks for minimum airflow first [-]


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
        Not where it stands still or heats, with ice on the indoor coil or on its way, with too
        little air, or in weather below the method's.

    References
    ----------
    .. [1] California Title 24 RA3.2: airflow first, outdoor air of 55 °F or more; an iced coil
       is thawed before: common practice, no source.
    """
    unit = installation.unit
    return bool(
        point.state == "running"
        and point.mode == "cooling"
        and float(np.asarray(unit.indoor_coil.ice)) == 0.0
        and float(point.evaporating_temperature) > ZERO_CELSIUS
        and float(point.airflow) >= ENOUGH_AIR * float(unit.rated_airflow)
        and float(point.outdoor_temperature) >= COLDEST
    )
