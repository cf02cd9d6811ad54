"""A day in the house: run time, room air, energy and money by part."""

from dataclasses import dataclass
from itertools import product
from typing import NamedTuple

import numpy as np

from simulator.plant import steady
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.plant.rooms import STEP, Outside, Room, stepped
from simulator.properties import moist_air
from simulator.quantities.values import Array

DAYS_TO_SETTLE = 4
DAYS_IN_MONTH = 30.0


@dataclass(frozen=True, slots=True, kw_only=True)
class DayWeather:
    """One repeated day.

    Parameters
    ----------
    high, low : float
        Outdoor temperatures, at 15:00 and 3:00. [K]
    humidity_ratio : float
        Outdoors, all day. [kg/kg]
    noon_sun : float
        On a horizontal surface at noon. [W/m²]
    """

    high: float
    low: float
    humidity_ratio: float
    noon_sun: float = 900.0


class Parts(NamedTuple):
    """What each part of the system takes of one day.

    Parameters
    ----------
    compressor, outdoor_fan, blower, strips : float
        Energy or money, as the owner says. [J] or [$]
    """

    compressor: float
    outdoor_fan: float
    blower: float
    strips: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """The settled day; arrays hold one value each ten minutes.

    Parameters
    ----------
    hours : array
        Of the clock. [h]
    run_fraction : array
        Part of each step that the system runs. [-]
    indoor_temperature : array
        [K]
    indoor_relative_humidity : array
        [-]
    mean_run_fraction, peak_run_fraction : float
        Over the day; over its worst hour. [-]
    compressor_energy, outdoor_fan_energy, blower_energy, strip_energy : float
        Over the day. [J]
    electricity_price : float
        [$/J]
    """

    hours: Array
    run_fraction: Array
    indoor_temperature: Array
    indoor_relative_humidity: Array
    mean_run_fraction: float
    peak_run_fraction: float
    compressor_energy: float
    outdoor_fan_energy: float
    blower_energy: float
    strip_energy: float
    electricity_price: float

    @property
    def energy_by_part(self) -> Parts:
        """Electricity of the day [J]."""
        return Parts(
            self.compressor_energy, self.outdoor_fan_energy, self.blower_energy, self.strip_energy
        )

    @property
    def cost_by_part(self) -> Parts:
        """Money of the day [$]."""
        return Parts(*(energy * self.electricity_price for energy in self.energy_by_part))

    @property
    def energy(self) -> float:
        """Electricity of the day, all parts [J]."""
        return sum(self.energy_by_part)

    @property
    def cost(self) -> float:
        """Money of the day, all parts [$]."""
        return self.energy * self.electricity_price

    @property
    def cost_per_month(self) -> float:
        """Money of thirty such days, all parts [$]."""
        return self.cost * DAYS_IN_MONTH


class _Grid(NamedTuple):
    """Running states over outdoor temperature, room temperature and room humidity."""

    axes: tuple[Array, Array, Array]
    table: Array  # shape (a, b, c, 7)


_COLUMNS = ("sensible", "drying", "infiltration", "compressor", "fan", "blower", "strips")


def outdoor_temperature(weather: DayWeather, hour: Array) -> Array:
    """Sine of the day.

    Parameters
    ----------
    weather : DayWeather
        The day.
    hour : array
        Of the clock. [h]

    Returns
    -------
    array
        [K]
    """
    mean, swing = 0.5 * (weather.high + weather.low), 0.5 * (weather.high - weather.low)
    wave: Array = mean + swing * np.cos(2 * np.pi * (hour - 15.0) / 24.0)
    return wave


def sun(weather: DayWeather, hour: Array) -> Array:
    """Half sine from 6:00 to 19:00.

    Parameters
    ----------
    weather : DayWeather
        The day.
    hour : array
        Of the clock. [h]

    Returns
    -------
    array
        [W/m²]
    """
    return (
        weather.noon_sun
        * np.maximum(np.sin(np.pi * (hour - 6.0) / 13.0), 0.0)
        * ((hour > 6.0) & (hour < 19.0))
    )


def day(installation: Installation, weather: DayWeather, setpoint: float) -> Day:
    """Repeat one day until it settles.

    A small grid of exact steady states serves the whole day; the thermostat takes the run
    fraction that holds its setpoint, and no more than all of it.

    Parameters
    ----------
    installation : Installation
        As it stands.
    weather : DayWeather
        The day.
    setpoint : float
        Of the thermostat. [K]

    Returns
    -------
    Day
        The last of the repeated days.
    """
    grid = _running_grid(installation, weather, setpoint)
    count = int(86400 / STEP)
    hours = np.asarray((np.arange(count) + 0.5) * STEP / 3600.0, dtype=np.float64)
    outdoors, sunshine = outdoor_temperature(weather, hours), sun(weather, hours)
    room = Room(0.0, setpoint, 0.0105)
    log = np.zeros((count, 3))
    used = np.zeros(4)
    for _ in range(DAYS_TO_SETTLE):
        used[:] = 0.0
        for index in range(count):
            running = _lookup(grid, outdoors[index], room.temperature, room.humidity_ratio)
            outside = Outside(outdoors[index], sunshine[index], weather.humidity_ratio)
            room = stepped(installation.house, outside, setpoint, running, room)
            used += room.run_fraction * running[3:] * STEP
            log[index] = room
    return _summary(installation, hours, log, used)


def _summary(installation: Installation, hours: Array, log: Array, used: Array) -> Day:
    fractions = log[:, 0]
    hourly = fractions.reshape(24, -1).mean(axis=1)
    humidity = np.asarray(moist_air.relative_humidity(log[:, 1], log[:, 2], 101325.0))
    return Day(
        hours=hours,
        run_fraction=fractions.copy(),
        indoor_temperature=log[:, 1].copy(),
        indoor_relative_humidity=humidity,
        mean_run_fraction=float(fractions.mean()),
        peak_run_fraction=float(hourly.max()),
        compressor_energy=float(used[0]),
        outdoor_fan_energy=float(used[1]),
        blower_energy=float(used[2]),
        strip_energy=float(used[3]),
        electricity_price=float(np.asarray(installation.house.electricity_price)),
    )


def _running_grid(installation: Installation, weather: DayWeather, setpoint: float) -> _Grid:
    """Solve the corners between which the day moves."""
    axes = (
        np.linspace(weather.low, weather.high, 4),
        np.array([setpoint - 1.0, setpoint + 4.0, setpoint + 12.0]),
        np.array([0.005, 0.009, 0.013, 0.018]),
    )
    corners = list(product(*axes))
    middle = 0.5 * (weather.low + weather.high)
    # The attic follows sun and air together: give each outdoor temperature its usual sun.
    conditions = [
        Conditions(
            outdoor_temperature=outdoors,
            outdoor_humidity_ratio=weather.humidity_ratio,
            indoor_temperature=room,
            indoor_humidity_ratio=water,
            solar=weather.noon_sun * max((outdoors - middle) / (weather.high - middle), 0.0) * 0.85,
        )
        for outdoors, room, water in corners
    ]
    point = steady.solve_many([installation] * len(corners), conditions)
    dryness = np.asarray(point.air_mass_flow) * (
        np.asarray(point.register_airflow) / np.asarray(point.airflow)
    )
    rows = np.stack(
        np.broadcast_arrays(
            point.delivered_sensible,
            dryness * (point.grille_humidity_ratio - point.supply_plenum_humidity_ratio),
            point.infiltration_airflow,
            point.compressor_power,
            point.outdoor_fan_power,
            point.blower_power,
            point.strip_power,
        ),
        axis=-1,
    )
    shape = tuple(len(axis) for axis in axes)
    return _Grid(axes, rows.reshape(*shape, len(_COLUMNS)))


def _lookup(grid: _Grid, outdoors: float, room: float, water: float) -> Array:
    """Trilinear interpolation, held at the edges."""
    table = grid.table
    for axis, value in zip(grid.axes, (outdoors, room, water), strict=True):
        place = float(np.clip(np.searchsorted(axis, value) - 1, 0, len(axis) - 2))
        index = int(place)
        weight = np.clip((value - axis[index]) / (axis[index + 1] - axis[index]), 0.0, 1.0)
        table = table[index] * (1.0 - weight) + table[index + 1] * weight
    return table
