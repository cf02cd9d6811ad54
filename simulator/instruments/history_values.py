"""Run time and starts that a thermostat has kept, from the house's balance on such a day.

Nothing on site keeps yesterday's weather, so the day is built around the outdoor temperature
now; its sizes are common practice, no source.
"""

from functools import lru_cache
from typing import NamedTuple

import numpy as np

from simulator.plant import steady
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.properties import moist_air
from simulator.quantities.values import Values

DAY = 86400.0  # [s]
MEAN_BELOW_NOW = 5.0  # a summer visit is in the warmer half of the day [K]
SUMMER_SUN, WINTER_SUN = 300.0, 100.0  # mean of a day [W/m²]
# A thermostat cycles fastest at half load: NEMA DC 3 gives N = 4 Nmax X (1 - X) (from memory).
MOST_STARTS = 3.0  # per hour


class History(NamedTuple):
    """One whole day: part of it that the system ran [-], and starts [-]."""

    run_fraction: Values
    starts: Values


def _called(point: OperatingPoint, installation: Installation) -> str:
    stuck = float(installation.unit.reversing_valve.is_stuck) > 0.5
    other = {"cooling": "heating", "heating": "cooling"}
    return other[point.mode] if stuck else point.mode


def history(installation: Installation, point: OperatingPoint) -> History:
    """What the thermostat kept of a day like this one.

    Parameters
    ----------
    installation : Installation
        As it stands.
    point : OperatingPoint
        Gives weather and rooms, running or not.

    Returns
    -------
    History

    References
    ----------
    .. [1] NEMA DC 3, Residential Controls: cycling rate over run fraction.
    """
    weather = tuple(
        round(float(getattr(point, name)), digits)
        for name, digits in (
            ("outdoor_temperature", 1),
            ("outdoor_humidity_ratio", 4),
            ("grille_temperature", 2),
            ("grille_humidity_ratio", 4),
            ("voltage", 0),
            ("pressure", 0),
        )
    )
    return _of_day(installation, _called(point, installation), weather)


@lru_cache(maxsize=64)
def _of_day(installation: Installation, mode: str, weather: tuple[float, ...]) -> History:
    day = day_like(mode, weather)
    point = steady.solve(installation, day)
    delivered = float(point.delivered_sensible)
    if point.mode != mode:
        delivered = -delivered
    found = of_delivered(installation, day, delivered, float(point.infiltration_airflow))
    return History(float(found.run_fraction), float(found.starts))


def day_like(mode: str, weather: tuple[Values, ...]) -> Conditions:
    """Mean conditions of a day around the weather of now.

    Parameters
    ----------
    mode : str
        What is called for.
    weather : tuple
        Outdoor temperature and humidity ratio, those of the room, voltage and barometric
        pressure now, in SI; floats or arrays. [-]

    Returns
    -------
    Conditions
    """
    outdoor, outdoor_water, room, water, voltage, pressure = weather
    cooling = mode == "cooling"
    return Conditions(
        outdoor_temperature=outdoor - MEAN_BELOW_NOW if cooling else outdoor,
        outdoor_humidity_ratio=outdoor_water,
        indoor_temperature=room,
        indoor_humidity_ratio=water,
        solar=SUMMER_SUN if cooling else WINTER_SUN,
        voltage=voltage,
        pressure=pressure,
        mode=mode,
    )


def of_delivered(
    installation: Installation, day: Conditions, delivered: Values, infiltration: Values
) -> History:
    """Run time and starts from what is delivered and what the house needs.

    Parameters
    ----------
    installation : Installation
        Gives the house.
    day : Conditions
        Means of the day.
    delivered : float
        Sensible; negative where the circuit runs the wrong way. [W]
    infiltration : float
        Outdoor air entering while running. [m³/s]

    Returns
    -------
    History
        Floats or arrays.
    """
    house, cooling = installation.house, day.mode == "cooling"
    room, water = day.indoor_temperature, day.indoor_humidity_ratio
    density = moist_air.density(room, water, day.pressure)
    heat = density * moist_air.heat_capacity(water) * infiltration
    gain = (house.conductance + heat) * (day.outdoor_temperature - room)
    gain = gain + house.sun_area * day.solar + house.internal_gain
    load = np.maximum(gain if cooling else -gain, 0.0)
    enough = np.asarray(delivered) > 0.0
    part = load / np.where(enough, delivered, 1.0)
    fraction = np.where(enough, np.minimum(part, 1.0), np.sign(load))
    starts = 24.0 * 4.0 * MOST_STARTS * fraction * (1.0 - fraction)
    return History(fraction, starts)


def run_time(installation: Installation, point: OperatingPoint) -> float:
    """Run time of the last whole day, [s]."""
    return DAY * float(history(installation, point).run_fraction)


def starts(installation: Installation, point: OperatingPoint) -> float:
    """Starts of the last whole day, [-]."""
    return float(history(installation, point).starts)
