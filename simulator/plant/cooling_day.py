"""A summer's day of the house."""

from collections.abc import Callable
from dataclasses import replace
from itertools import product
from typing import NamedTuple, TypeAlias

import numpy as np

from simulator.plant import steady
from simulator.plant.conditions import Conditions
from simulator.plant.day_record import (
    DAYS_TO_SETTLE,
    Day,
    DayWeather,
    air_density,
    clock,
    outdoor_temperature,
    summary,
    sun,
)
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.plant.rooms import STEP, Between, Outside, Room, stepped
from simulator.quantities.values import Array, Values

Step: TypeAlias = Callable[[int, Room], tuple[Room, Array]]
FIRST_WATER = 0.0105  # in the rooms before the first day [kg/kg]; chosen


class _Grid(NamedTuple):
    """Running states over outdoor temperature, room temperature and room humidity."""

    axes: tuple[Array, Array, Array]
    table: Array  # shape (a, b, c, 7)


_COLUMNS = ("sensible", "drying", "infiltration", "compressor", "fan", "blower", "strips")


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
    step = stepping(installation, weather, setpoint)
    count = len(clock())
    room = Room(0.0, held(installation, setpoint), FIRST_WATER)
    log, used = np.zeros((count, 3)), np.zeros(4)
    for _ in range(DAYS_TO_SETTLE):
        used[:] = 0.0
        for index in range(count):
            room, taken = step(index, room)
            used += taken
            log[index] = room
    return summary(installation, weather, log, used)


def held(installation: Installation, setpoint: float) -> float:
    """Room temperature that the thermostat really holds.

    Parameters
    ----------
    installation : Installation
        Its thermostat may read warm or cold.
    setpoint : float
        As set. [K]

    Returns
    -------
    float
        [K]
    """
    return setpoint - float(np.asarray(installation.controls.thermostat_offset))


def stepping(installation: Installation, weather: DayWeather, setpoint: float) -> Step:
    """How the rooms move in one step of the day, with the plant solved ahead.

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
    callable
        From a step of the day and the rooms before it: the rooms after, and the energy that
        each part took. [J]
    """
    goal = held(installation, setpoint)
    share = float(np.asarray(installation.controls.fan_always_on))
    grid = _grid(installation, weather, goal, calling=True)
    # With the compressor left out, air moves alone.
    moving = _grid(installation, weather, goal, calling=False) if share > 0.0 else grid
    hours = clock()
    outdoors, sunshine = outdoor_temperature(weather, hours), sun(weather, hours)
    density = air_density(weather)

    def step(index: int, room: Room) -> tuple[Room, Array]:
        place = (outdoors[index], room.temperature, room.humidity_ratio)
        running = _lookup(grid, place)
        outside = Outside(outdoors[index], sunshine[index], weather.humidity_ratio, density)
        blown = _lookup(moving, place) if share > 0.0 else running
        between = Between(share, float(blown[0]) if share > 0.0 else 0.0)
        after = stepped(installation.house, outside, goal, running, room, between)
        taken = after.run_fraction * running[3:] * STEP
        if share > 0.0:
            taken[2] += (1.0 - after.run_fraction) * share * blown[5] * STEP
        return after, taken

    return step


def _grid(installation: Installation, weather: DayWeather, goal: float, *, calling: bool) -> _Grid:
    """Solve the corners between which the day moves."""
    axes = (
        np.linspace(weather.low, weather.high, 4),
        np.array([goal - 1.0, goal + 4.0, goal + 12.0]),
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
            pressure=weather.pressure,
            solar=weather.noon_sun * max((outdoors - middle) / (weather.high - middle), 0.0) * 0.85,
        )
        for outdoors, room, water in corners
    ]
    if not calling:
        conditions = [replace(one, compressor_call=0.0) for one in conditions]
    point = steady.solve_many([installation] * len(corners), conditions)
    dryness = np.asarray(point.air_mass_flow) * (
        np.asarray(point.register_airflow) / np.asarray(point.airflow)
    )
    rows = np.stack(
        np.broadcast_arrays(
            _taken(point),
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


def _taken(point: OperatingPoint) -> Values:
    """Sensible heat from the rooms [W]; a stuck reversing valve heats them."""
    return np.where(np.asarray(point.mode) == "heating", -1.0, 1.0) * point.delivered_sensible


def _lookup(grid: _Grid, place: tuple[float, float, float]) -> Array:
    """Trilinear interpolation, held at the edges."""
    table = grid.table
    for axis, value in zip(grid.axes, place, strict=True):
        index = int(np.clip(np.searchsorted(axis, value) - 1, 0, len(axis) - 2))
        weight = np.clip((value - axis[index]) / (axis[index + 1] - axis[index]), 0.0, 1.0)
        table = table[index] * (1.0 - weight) + table[index + 1] * weight
    return table
