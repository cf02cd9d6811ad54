"""A winter's day of the house: frost and defrost, strips, and what the thermostat makes of them."""

from dataclasses import replace
from typing import NamedTuple

import numpy as np

from simulator.components.electric_strips import strip_power
from simulator.plant import defrost, steady
from simulator.plant.conditions import Conditions
from simulator.plant.cooling_day import Step
from simulator.plant.cooling_day import held as held_at
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
from simulator.plant.frosting import frosting, thawing
from simulator.plant.installation import Installation
from simulator.plant.rooms import (
    AIR_DENSITY,
    AIR_HEAT_CAPACITY,
    STEP,
    Between,
    Call,
    Outside,
    Room,
    warmed,
)
from simulator.properties import moist_air
from simulator.properties.moist_air import STANDARD_PRESSURE
from simulator.quantities.values import Array

KNOTS = 4  # outdoor temperatures solved exactly; between them the plant is near a line
COOLER = 10.0  # lowest rooms solved, below the setpoint [K]
LEAST_RUN = 0.05  # of the time, below which a coil that stands is long dry [-]; chosen
INDOOR_WATER = 0.006  # for the plant alone, which hardly feels it while heating [kg/kg]
# Heat delivered, drying, infiltration, compressor, outdoor fan, blower, strips.
_FIELDS = (
    *("delivered_sensible", "infiltration_airflow", "compressor_power"),
    *("outdoor_fan_power", "blower_power", "strip_power"),
)


class _Grid(NamedTuple):
    """States over outdoor and room temperature, each of shape (a, 2, 7)."""

    outdoors: Array
    rooms: Array
    first: Array  # what every call brings
    second: Array  # the same with all strips
    moving: Array  # the blower alone


def day(installation: Installation, weather: DayWeather, setpoint: float) -> Day:
    """Repeat one winter's day until it settles.

    The compressor runs with the capacity and power that a whole cycle of frost and defrost
    leaves of them, and strips temper each defrost. Strips join where the rooms have fallen by
    the droop and the outdoor air is below the lockout; a jumper brings them with every call,
    emergency heat in place of the compressor.

    Parameters
    ----------
    installation : Installation
        As it stands.
    weather : DayWeather
        The day; its water stays in the air as far as colder air can hold it.
    setpoint : float
        Of the thermostat. [K]

    Returns
    -------
    Day
        The last of the repeated days.
    """
    step = stepping(installation, weather, setpoint)
    count = len(clock())
    room = Room(0.0, held_at(installation, setpoint), INDOOR_WATER)
    log, used = np.zeros((count, 3)), np.zeros(4)
    for _ in range(DAYS_TO_SETTLE):
        used[:] = 0.0
        for index in range(count):
            room, taken = step(index, room)
            used += taken
            log[index] = room
    return summary(installation, weather, log, used)


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
        As ``cooling_day.stepping``.
    """
    controls, house = installation.controls, installation.house
    goal = held_at(installation, setpoint)
    share = float(np.asarray(controls.fan_always_on))
    droop = float(np.asarray(controls.auxiliary_droop))
    lockout = float(np.asarray(controls.auxiliary_lockout))
    grid = _grid(installation, weather, goal)
    hours = clock()
    outdoors, sunshine = outdoor_temperature(weather, hours), sun(weather, hours)
    water = np.asarray(moist_air.saturated_humidity_ratio(outdoors, weather.pressure))
    water = np.minimum(weather.humidity_ratio, water)
    density = air_density(weather)

    def step(index: int, room: Room) -> tuple[Room, Array]:
        cold = outdoors[index]
        first, second, moving = _lookup(grid, cold, room.temperature)
        more = second - first
        call = Call(goal, droop, max(float(more[0]), 0.0) if cold < lockout else 0.0)
        outside = Outside(cold, sunshine[index], float(water[index]), density)
        between = Between(share, -float(moving[0]))
        after, joined = warmed(house, outside, call, first, room, between)
        taken = after.run_fraction * (first[3:] + joined * more[3:]) * STEP
        taken[2] += (1.0 - after.run_fraction) * share * moving[5] * STEP
        return after, taken

    return step


def balance_point(
    installation: Installation,
    setpoint: float,
    relative_humidity: float = 0.8,
    pressure: float = STANDARD_PRESSURE,
) -> float:
    """Outdoor temperature at which the compressor alone just holds the rooms, without sun.

    Parameters
    ----------
    installation : Installation
        As it stands; frost and defrost count.
    setpoint : float
        Of the thermostat. [K]
    relative_humidity : float
        Outdoors. [-]
    pressure : float
        Barometric. [Pa]

    Returns
    -------
    float
        The end of the range looked at, -15 °F to 65 °F, where the two do not meet in it. [K]
    """
    held = setpoint - float(np.asarray(installation.controls.thermostat_offset))
    outdoors = np.linspace(247.0, 291.5, 7)
    conditions = [
        _conditions(
            cold,
            held,
            float(moist_air.humidity_ratio(cold, relative_humidity, pressure)),
            pressure=pressure,
        )
        for cold in outdoors
    ]
    frosted = frosting(installation, conditions)
    heat = np.array([one.mean_capacity for one in defrost.cycles(installation, frosted)])
    blown = steady.solve(installation, conditions[0]).infiltration_airflow
    house = installation.house
    density = AIR_DENSITY * pressure / STANDARD_PRESSURE
    loss = house.conductance + density * AIR_HEAT_CAPACITY * blown
    spare = heat - (loss * (held - outdoors) - house.internal_gain)
    fine = np.linspace(outdoors[0], outdoors[-1], 446)
    enough = np.interp(fine, outdoors, spare) >= 0.0
    return float(fine[np.argmax(enough)] if enough.any() else fine[-1])


def _conditions(
    outdoors: float,
    rooms: float,
    water: float,
    calls: tuple[float, float] = (0.0, 1.0),
    pressure: float = STANDARD_PRESSURE,
) -> Conditions:
    """Weather and rooms with what the thermostat asks of strips and compressor."""
    strips, compressor = calls
    return Conditions(
        outdoor_temperature=float(outdoors),
        outdoor_humidity_ratio=float(water),
        indoor_temperature=float(rooms),
        indoor_humidity_ratio=INDOOR_WATER,
        solar=0.0,
        mode="heating",
        auxiliary_call=strips,
        compressor_call=compressor,
        pressure=pressure,
    )


def _grid(installation: Installation, weather: DayWeather, held: float) -> _Grid:
    """Exact states at a few outdoor temperatures, in two rooms, for each kind of call."""
    controls = installation.controls
    outdoors = np.linspace(weather.low, weather.high, KNOTS)
    water = np.minimum(
        weather.humidity_ratio,
        np.asarray(moist_air.saturated_humidity_ratio(outdoors, weather.pressure)),
    )
    rooms = np.array([held - COOLER, held + 2.0])
    emergency = float(np.asarray(controls.emergency_heat) >= 0.5)
    jumper = max(float(np.asarray(controls.strips_with_every_call)), emergency)
    calls = ((jumper, 1.0 - emergency), (1.0, 1.0 - emergency), (0.0, 0.0))
    around = [
        _conditions(cold, warm, wet, (strips, compressor), weather.pressure)
        for strips, compressor in calls
        for cold, wet in zip(outdoors, water, strict=True)
        for warm in rooms
    ]
    point = steady.solve_many([installation] * len(around), around)
    rows = np.stack(
        [np.broadcast_to(np.asarray(getattr(point, name)), len(around)) for name in _FIELDS], -1
    )
    table = np.insert(rows, 1, 0.0, axis=-1).reshape(len(calls), KNOTS, 2, len(_FIELDS) + 1)
    turned = bool(installation.unit.reversing_valve.is_stuck)
    if turned:  # the call for heat cools, and its coil outdoors is the hot one
        table[:, :, :, 0] = -table[:, :, :, 0]
    elif emergency < 0.5:
        around = [
            _conditions(cold, held, float(wet), pressure=weather.pressure)
            for cold, wet in zip(outdoors, water, strict=True)
        ]
        table[:2] = _frosted(installation, table[:2], around)
    return _Grid(outdoors, rooms, *table)


def _frosted(installation: Installation, table: Array, around: list[Conditions]) -> Array:
    """What frost and defrost leave of it, and the strips that temper each defrost."""
    strips = installation.unit.strips
    frosted = frosting(installation, around)
    all_of_them = float(strip_power(replace(strips, energised_power=strips.installed_power), 240.0))
    worse = table.copy()
    never = [one.mean_capacity for one in defrost.cycles(installation, frosted)]
    rests = _standing(installation, table, around, np.array(never))
    thaw = np.array([thawing(installation, sky) for sky in around]) * rests
    for row, one in enumerate(defrost.cycles(installation, frosted, thaw)):
        # Strips already on with the call temper too; what they cannot make good is missed.
        free = np.maximum(all_of_them - table[:, row, :, 6], 0.0)
        tempering = np.minimum(one.tempering, free * one.defrost_share)
        worse[:, row, :, 0] += one.mean_capacity - one.clean_capacity + tempering
        worse[:, row, :, 3] *= one.compressor_share
        worse[:, row, :, 4] *= one.fan_share
        worse[:, row, :, 5] *= one.blower_share
        worse[:, row, :, 6] += tempering
    return worse


def _standing(
    installation: Installation, table: Array, around: list[Conditions], heat: Array
) -> Array:
    """Standing over running time in rooms at the setpoint without sun; none where heat lacks."""
    house = installation.house
    density = AIR_DENSITY * np.array([sky.pressure for sky in around]) / STANDARD_PRESSURE
    loss = house.conductance + density * AIR_HEAT_CAPACITY * table[0, :, 1, 2]
    apart = np.array([sky.indoor_temperature - sky.outdoor_temperature for sky in around])
    share = (loss * apart - house.internal_gain) / np.maximum(heat, 1.0)
    return np.asarray(1.0 / np.clip(share, LEAST_RUN, 1.0) - 1.0)


def _lookup(grid: _Grid, outdoors: float, rooms: float) -> tuple[Array, Array, Array]:
    """Straight lines between the knots, held at the edges."""
    knots = grid.outdoors
    step = (knots[-1] - knots[0]) / (KNOTS - 1)
    place = float(np.clip((outdoors - knots[0]) / step, 0.0, KNOTS - 1.0)) if step > 0.0 else 0.0
    index = min(int(place), KNOTS - 2)
    along = place - index
    warm = float(np.clip((rooms - grid.rooms[0]) / (grid.rooms[1] - grid.rooms[0]), 0.0, 1.0))
    found = []
    for table in (grid.first, grid.second, grid.moving):
        two = table[index] * (1.0 - along) + table[index + 1] * along
        found.append(two[0] * (1.0 - warm) + two[1] * warm)
    return found[0], found[1], found[2]
