"""Ten minutes of the rooms: sensible and latent balance under a thermostat."""

from typing import NamedTuple

import numpy as np

from simulator.plant.installation import House
from simulator.quantities.values import Array

STEP = 600.0  # [s]
AIR_DENSITY = 1.19  # [kg/m³], near 75 °F at sea level, from the gas law
AIR_HEAT_CAPACITY = 1020.0  # [J/(kg K)], with usual moisture, per mass of dry air
DRIEST = 0.003  # [kg/kg]


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
    """

    temperature: float
    sun: float
    humidity_ratio: float


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


def stepped(house: House, outside: Outside, setpoint: float, running: Array, room: Room) -> Room:
    """The rooms one step later.

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
        Of the thermostat. [K]
    running : array
        While the system runs: sensible cooling, drying, infiltration, then what is not used
        here. [W], [kg/s], [m³/s]
    room : Room
        Before.

    Returns
    -------
    Room
        After.
    """
    sensible, drying, while_running = running[:3]
    natural = float(np.asarray(house.natural_infiltration))

    def gain(air: float) -> float:
        exchange = house.conductance + AIR_DENSITY * air * AIR_HEAT_CAPACITY
        return float(
            exchange * (outside.temperature - room.temperature)
            + house.sun_area * outside.sun
            + house.internal_gain
        )

    idle, busy = gain(natural), gain(while_running) - sensible
    capacity = float(np.asarray(house.heat_capacity))
    wanted = (setpoint - room.temperature) * capacity / STEP
    fraction = 0.0
    if wanted < idle:
        # Holding the setpoint takes idle + f (busy - idle) = wanted; a unit that heats the
        # rooms on balance never gets there and runs on.
        fraction = 1.0 if busy >= idle else min((idle - wanted) / (idle - busy), 1.0)
    heat = idle + fraction * (busy - idle)
    air = natural + fraction * (while_running - natural)
    mass = AIR_DENSITY * house.volume * (1.0 + house.moisture_buffer)
    wetting = house.moisture_gain + AIR_DENSITY * air * (
        outside.humidity_ratio - room.humidity_ratio
    )
    water = room.humidity_ratio + (wetting - fraction * drying) * STEP / mass
    return Room(fraction, room.temperature + heat * STEP / capacity, max(float(water), DRIEST))
