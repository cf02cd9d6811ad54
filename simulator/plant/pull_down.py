"""The rooms after a repair: from where the fault had let them drift, back to the setpoint."""

from dataclasses import dataclass

import numpy as np

from simulator.plant import cooling_day, heating_day
from simulator.plant.cooling_day import Step
from simulator.plant.day_record import Day, DayWeather
from simulator.plant.installation import Installation
from simulator.plant.rooms import STEP, Room
from simulator.properties import moist_air
from simulator.quantities.values import Array

STEPS_A_DAY = round(86400 / STEP)
CLOSE = 0.2  # off what the healthy thermostat holds, less than it swings [K]; chosen


@dataclass(frozen=True, slots=True, kw_only=True)
class PullDown:
    """Rooms from the hour of a repair on.

    Parameters
    ----------
    minutes : array
        Since the repair, in minutes.
    repaired, unrepaired : array
        Room temperature with the repair, and without it. [K]
    run_fraction : array
        Of the repaired system. [-]
    held : float
        What the repaired thermostat holds. [K]
    """

    minutes: Array
    repaired: Array
    unrepaired: Array
    run_fraction: Array
    held: float

    def minutes_until_held(self, heating: bool = False) -> float | None:
        """How long the repaired system takes back to its setpoint.

        Parameters
        ----------
        heating : bool
            Whether the rooms come from below.

        Returns
        -------
        float or None
            In minutes; None where it does not get there in the time looked at.
        """
        off = self.held - self.repaired if heating else self.repaired - self.held
        there = np.flatnonzero(off <= CLOSE)
        return float(self.minutes[there[0]]) if there.size else None


def pull_down(
    repaired: Installation,
    broken: Day,
    weather: DayWeather,
    setpoint: float,
    *,
    mode: str = "cooling",
    hour: float = 15.0,
    hours: float = 9.0,
) -> PullDown:
    """Repair the system at some hour of its settled day.

    Parameters
    ----------
    repaired : Installation
        As it stands afterwards.
    broken : Day
        Settled, as it was.
    weather : DayWeather
        Of both.
    setpoint : float
        Of the thermostat. [K]
    mode : str
        ``cooling`` or ``heating``.
    hour : float
        Of the repair. [h]
    hours : float
        Looked at afterwards. [h]

    Returns
    -------
    PullDown
        One value each ten minutes.
    """
    step = stepping(repaired, weather, setpoint, mode)
    first, count = round(hour * 3600 / STEP), round(hours * 3600 / STEP)
    before = (first - 1) % STEPS_A_DAY
    start = float(broken.indoor_temperature[before])
    water = moist_air.humidity_ratio(
        start, float(broken.indoor_relative_humidity[before]), weather.pressure
    )
    room = Room(0.0, start, float(water))
    rooms, runs, others = [start], [float(broken.run_fraction[before])], [start]
    for index in range(first, first + count):
        place = index % STEPS_A_DAY
        room, _ = step(place, room)
        rooms.append(room.temperature)
        runs.append(room.run_fraction)
        others.append(float(broken.indoor_temperature[place]))
    return PullDown(
        minutes=np.asarray(np.arange(count + 1) * STEP / 60.0, dtype=np.float64),
        repaired=np.array(rooms),
        unrepaired=np.array(others),
        run_fraction=np.array(runs),
        held=cooling_day.held(repaired, setpoint),
    )


def stepping(
    installation: Installation, weather: DayWeather, setpoint: float, mode: str = "cooling"
) -> Step:
    """One step of the day in either mode.

    Parameters
    ----------
    installation : Installation
        As it stands.
    weather : DayWeather
        The day.
    setpoint : float
        Of the thermostat. [K]
    mode : str
        ``cooling`` or ``heating``.

    Returns
    -------
    callable
        As ``cooling_day.stepping``.
    """
    if mode == "heating":
        return heating_day.stepping(installation, weather, setpoint)
    return cooling_day.stepping(installation, weather, setpoint)
