"""Ten minutes of the rooms: sensible and latent balance under a thermostat."""

from typing import NamedTuple

import numpy as np

from simulator.plant.installation import House
from simulator.quantities.values import Array

STEP = 600.0  # [s]
AIR_DENSITY = 1.19  # [kg/m³], near 75 °F at sea level, from the gas law
AIR_HEAT_CAPACITY = 1020.0  # [J/(kg K)], with usual moisture, per mass of dry air
DRIEST = 0.003  # [kg/kg]
EVAPORATION = 2.45e6  # of water at room temperature [J/kg]
# Henderson and Rengarajan, ASHRAE Transactions 102(1), 1996: a coil holds what it condenses in
# twelve minutes (from memory). An evenly wet coil would give it off faster than it came, theirs
# by half again; half as fast makes rooms 3 to 8 points damper, which is common practice.
HELD_ON_COIL = 720.0  # [s]
DRYING_OFF = 0.5  # over the rate at which it condenses [-]
MOST_STARTS = 3.0  # per hour, at half load; NEMA DC 3 (from memory)


class Outside(NamedTuple):
    """One step outdoors.

    Parameters
    ----------
    temperature : float
        [K]
    sun : float
        On a horizontal surface. [W/m²]
    humidity_ratio : float
        [kg/kg]
    air_density : float
        Of the air that is exchanged. [kg/m³]
    """

    temperature: float
    sun: float
    humidity_ratio: float
    air_density: float = AIR_DENSITY


class Room(NamedTuple):
    """The rooms, and how long the system ran to bring them there.

    Parameters
    ----------
    run_fraction : float
        Of the step. [-]
    temperature : float
        [K]
    humidity_ratio : float
        [kg/kg]
    """

    run_fraction: float
    temperature: float
    humidity_ratio: float


class Between(NamedTuple):
    """What the blower does between calls.

    Parameters
    ----------
    share : float
        Of the time between calls that it runs. [-]
    sensible : float
        What its air takes from the rooms, mostly through the ducts. [W]
    """

    share: float = 0.0
    sensible: float = 0.0


class Call(NamedTuple):
    """What the thermostat may ask for.

    Parameters
    ----------
    held : float
        Room temperature at which a call ends. [K]
    droop : float
        How far below the second stage joins. [delta K]
    second_stage : float
        Heat that it can add, 0 where it is held off. [W]
    """

    held: float
    droop: float
    second_stage: float


class _Gains(NamedTuple):
    """Into the rooms [W], and air change [m³/s], between calls and while running."""

    idle: float
    busy: float
    idle_air: float
    busy_air: float


def stepped(
    house: House,
    outside: Outside,
    setpoint: float,
    running: Array,
    room: Room,
    between: Between = Between(),  # noqa: B008
) -> Room:
    """The rooms one step later, cooled.

    One node for heat and one for water, lumped with the contents: storage equals gains less
    what the running system takes (first law, forward in time). The thermostat takes the part
    of the step that ends at its setpoint, and no more than all of it.

    Parameters
    ----------
    house : House
        Floats.
    outside : Outside
        Through the step.
    setpoint : float
        At which the thermostat holds the rooms. [K]
    running : array
        While the system runs: sensible cooling, drying, infiltration, then what is not used
        here. [W], [kg/s], [m³/s]
    room : Room
        Before.
    between : Between
        The blower between calls: its air dries the coil back into the rooms.

    Returns
    -------
    Room
        After.
    """
    gains = _gains(house, outside, running, room, between)
    wanted = (setpoint - room.temperature) * float(np.asarray(house.heat_capacity)) / STEP
    fraction = 0.0
    if wanted < gains.idle:
        # Holding the setpoint takes idle + f (busy - idle) = wanted; a unit that heats the
        # rooms on balance never gets there and runs on.
        fraction = (
            1.0
            if gains.busy >= gains.idle
            else min((gains.idle - wanted) / (gains.idle - gains.busy), 1.0)
        )
    back = fraction * max(float(running[1]), 0.0) * between.share * given_back(fraction)
    heat = gains.idle + fraction * (gains.busy - gains.idle) - back * EVAPORATION
    return _moved(house, outside, room, (fraction, heat, fraction * running[1] - back, gains))


def warmed(
    house: House, outside: Outside, call: Call, running: Array, room: Room, between: Between
) -> tuple[Room, float]:
    """The rooms one step later, heated in two stages.

    As ``stepped``. The first stage runs for the part of the step that ends where the call
    ends; where all of it is not enough, the second holds the rooms a droop lower.

    Parameters
    ----------
    house : House
        Floats.
    outside : Outside
        Through the step.
    call : Call
        Of the thermostat.
    running : array
        While the first stage runs: heat delivered, drying, infiltration, then what is not
        used here. [W], [kg/s], [m³/s]
    room : Room
        Before.
    between : Between
        The blower between calls.

    Returns
    -------
    Room
        After.
    float
        Part of the second stage that ran. [-]
    """
    taken = np.array([-running[0], running[1], running[2]])
    gains = _gains(house, outside, taken, room, between)
    capacity = float(np.asarray(house.heat_capacity))
    wanted = (call.held - room.temperature) * capacity / STEP
    fraction = 0.0
    if wanted > gains.idle:
        fraction = (
            1.0
            if gains.busy <= gains.idle
            else min((wanted - gains.idle) / (gains.busy - gains.idle), 1.0)
        )
    heat = gains.idle + fraction * (gains.busy - gains.idle)
    second = 0.0
    if fraction >= 1.0 and call.second_stage > 0.0:
        second = (wanted - call.droop * capacity / STEP - heat) / call.second_stage
        second = float(np.clip(second, 0.0, 1.0))
    after = _moved(house, outside, room, (fraction, heat + second * call.second_stage, 0.0, gains))
    return after, second


def given_back(fraction: float) -> float:
    """Part of the water condensed in a call that the blower carries back before the next.

    Parameters
    ----------
    fraction : float
        Of the time that the system runs; it starts most often at half. [-]

    Returns
    -------
    float
        [-]

    References
    ----------
    .. [1] Henderson, H. I. and Rengarajan, K., "A model to predict the latent capacity of air
       conditioners and heat pumps at part-load conditions with constant fan operation",
       ASHRAE Transactions 102(1), 1996 (from memory).

    Examples
    --------
    >>> given_back(1.0)
    0.0
    >>> round(given_back(0.5), 2)
    0.34
    """
    if not 0.0 < fraction < 1.0:
        return 0.0
    on = 900.0 / MOST_STARTS / (1.0 - fraction)
    off = 900.0 / MOST_STARTS / fraction
    held = min(HELD_ON_COIL / on, 1.0)
    return float(held * -np.expm1(-DRYING_OFF * off / HELD_ON_COIL))


def _gains(house: House, outside: Outside, running: Array, room: Room, between: Between) -> _Gains:
    natural = float(np.asarray(house.natural_infiltration))
    blown = natural + between.share * (float(running[2]) - natural)

    def gain(air: float) -> float:
        exchange = house.conductance + outside.air_density * air * AIR_HEAT_CAPACITY
        return float(
            exchange * (outside.temperature - room.temperature)
            + house.sun_area * outside.sun
            + house.internal_gain
        )

    idle = gain(blown) - between.share * between.sensible
    return _Gains(idle, gain(float(running[2])) - float(running[0]), blown, float(running[2]))


def _moved(
    house: House, outside: Outside, room: Room, done: tuple[float, float, float, _Gains]
) -> Room:
    """Storage over one step, of heat [W] and of water [kg/s]."""
    fraction, heat, drying, gains = done
    capacity = float(np.asarray(house.heat_capacity))
    air = gains.idle_air + fraction * (gains.busy_air - gains.idle_air)
    mass = outside.air_density * house.volume * (1.0 + house.moisture_buffer)
    wetting = house.moisture_gain + outside.air_density * air * (
        outside.humidity_ratio - room.humidity_ratio
    )
    water = room.humidity_ratio + (wetting - drying) * STEP / mass
    return Room(fraction, room.temperature + heat * STEP / capacity, max(float(water), DRIEST))
