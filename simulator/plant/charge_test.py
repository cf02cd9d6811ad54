"""Whether superheat and subcooling say anything of the charge in a settled state."""

from typing import Literal

import numpy as np

from simulator.plant.charging_chart import has_entry, is_within
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.properties.moist_air import ZERO_CELSIUS, wet_bulb

# 55 °F outdoors, California Title 24 RA3.2; rounded down, so that 55 °F itself is inside [K]
COLDEST = 285.92
ENOUGH_AIR = 350.0 / 400.0  # of 400 cfm per ton; RA3.2 asks for minimum airflow first [-]
# 70 °F is RA3.2's least for the return dry bulb; about 80 °F as the most is common practice,
# the rating point of AHRI 210/240 and of a plate's figures. [K]
ROOMS = (294.26, 299.82)
# A valve's plate has a figure of subcooling for a load like the rated one. AHRI 210/240 rates
# cooling no drier than 57 °F wet bulb (tests C and D), and the chart of RA3.2 ends at 76 °F. [K]
VALVE_WET_BULB = (287.04, 297.59)
THERMOSTATIC = 0.5  # a share of 1 or 0 [-]
Obstacle = Literal[
    "standing",
    "heating",
    "ice",
    "wrong_refrigerant",
    "other_table",
    "little_air",
    "freezing",
    "cold_weather",
    "rooms",
    "load",
    "no_entry",
]


def is_valid(installation: Installation, point: OperatingPoint, gauges: str | None = None) -> bool:
    """Whether the plant stands so that a charge test by gauges means something.

    Parameters
    ----------
    installation : Installation
        As it stands.
    point : OperatingPoint
        Floats, its settled state.
    gauges : str, optional
        Refrigerant that the gauges are set to; else what is in the circuit.

    Returns
    -------
    bool
        Whether nothing is in its way.
    """
    return obstacle(installation, point, gauges) is None


def obstacle(
    installation: Installation, point: OperatingPoint, gauges: str | None = None
) -> Obstacle | None:
    """What keeps a charge test by gauges from meaning anything; of several, what comes first.

    Parameters
    ----------
    installation : Installation
        As it stands.
    point : OperatingPoint
        Floats, its settled state.
    gauges : str, optional
        Refrigerant that the gauges are set to; else what is in the circuit.

    Returns
    -------
    str or None
        It stands still or heats, ice is on the indoor coil, another refrigerant than the
        plate's is in the circuit or in the gauges, there is too little air, ice is on its way,
        the weather is below the method's, rooms are cold or hot, a valve's load is far from
        the rated one, or the chart of a fixed orifice has no entry.

    References
    ----------
    .. [1] California Title 24 RA3.2: airflow first, outdoor air of 55 °F or more, return air of
       70 °F or more, a target of 5 °F or more from its chart; an iced coil is thawed before,
       and the plate's target is that of the plate's refrigerant: common practice, no source.
    """
    unit = installation.unit
    in_the_way: tuple[tuple[Obstacle, bool], ...] = (
        ("standing", point.state != "running"),
        ("heating", point.mode != "cooling"),
        ("ice", float(np.asarray(unit.indoor_coil.ice)) != 0.0),
        ("wrong_refrigerant", unit.refrigerant != unit.plate_refrigerant),
        ("other_table", gauges not in (None, unit.refrigerant)),
        ("little_air", float(point.airflow) < ENOUGH_AIR * float(unit.rated_airflow)),
        ("freezing", float(point.evaporating_temperature) <= ZERO_CELSIUS),
        ("cold_weather", float(point.outdoor_temperature) < COLDEST),
        ("rooms", not is_within(float(point.grille_temperature), ROOMS)),
    )
    found = next((name for name, is_so in in_the_way if is_so), None)
    return _of_the_method(installation, point) if found is None else found


def _of_the_method(installation: Installation, point: OperatingPoint) -> Obstacle | None:
    wet = float(wet_bulb(point.grille_temperature, point.grille_humidity_ratio, point.pressure))
    if float(installation.unit.metering.is_thermostatic) >= THERMOSTATIC:
        return None if is_within(wet, VALVE_WET_BULB) else "load"
    return None if has_entry(wet, float(point.outdoor_temperature)) else "no_entry"
