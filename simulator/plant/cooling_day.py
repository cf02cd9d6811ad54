"""A summer's day of the house."""

from dataclasses import replace
from itertools import product
from typing import NamedTuple

import numpy as np

from simulator.plant import steady
from simulator.plant.conditions import Conditions
from simulator.plant.day_record import (
    DAYS_TO_SETTLE,
    Day,
    DayWeather,
    clock,
    outdoor_temperature,
    summary,
    sun,
)
from simulator.plant.installation import Installation
from simulator.plant.rooms import STEP, Between, Outside, Room, stepped
from simulator.quantities.values import Array


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
    controls = installation.controls
    held = setpoint - float(np.asarray(controls.thermostat_offset))
    share = float(np.asarray(controls.fan_always_on))
    grid = _grid(installation, weather, held, calling=True)
    # With the compressor left out, air moves alone.
    moving = _grid(installation, weather, held, calling=False) if share > 0.0 else grid
    hours = clock()
    outdoors, sunshine = outdoor_temperature(weather, hours), sun(weather, hours)
    room, log, used = Room(0.0, held, 0.0105), np.zeros((len(hours), 3)), np.zeros(4)
    for _ in range(DAYS_TO_SETTLE):
        used[:] = 0.0
        for index, cold in enumerate(outdoors):
            place = (cold, room.temperature, room.humidity_ratio)
            running = _lookup(grid, place)
            outside = Outside(cold, sunshine[index], weather.humidity_ratio)
            blown = _lookup(moving, place) if share > 0.0 else running
            between = Between(share, float(blown[0]) if share > 0.0 else 0.0)
            room = stepped(installation.house, outside, held, running, room, between)
            used += room.run_fraction * running[3:] * STEP
            if share > 0.0:
                used[2] += (1.0 - room.run_fraction) * share * blown[5] * STEP
            log[index] = room
    return summary(installation, log, used)


def _grid(installation: Installation, weather: DayWeather, held: float, *, calling: bool) -> _Grid:
    """Solve the corners between which the day moves."""
    axes = (
        np.linspace(weather.low, weather.high, 4),
        np.array([held - 1.0, held + 4.0, held + 12.0]),
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
    if not calling:
        conditions = [replace(one, compressor_call=0.0) for one in conditions]
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


def _lookup(grid: _Grid, place: tuple[float, float, float]) -> Array:
    """Trilinear interpolation, held at the edges."""
    table = grid.table
    for axis, value in zip(grid.axes, place, strict=True):
        index = int(np.clip(np.searchsorted(axis, value) - 1, 0, len(axis) - 2))
        weight = np.clip((value - axis[index]) / (axis[index + 1] - axis[index]), 0.0, 1.0)
        table = table[index] * (1.0 - weight) + table[index + 1] * weight
    return table
