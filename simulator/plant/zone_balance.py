"""Heat and moisture of the space around the ducts."""

from typing import NamedTuple

import numpy as np

from simulator.plant.conditions import Conditions
from simulator.plant.installation import Zone
from simulator.properties import moist_air
from simulator.quantities.values import Values


class ZoneAir(NamedTuple):
    """Temperature [K] and humidity ratio [kg/kg] of a zone."""

    temperature: Values
    humidity_ratio: Values


class Exchange(NamedTuple):
    """What ducts do to a zone: flows [kg/s], wall conductances [W/K], supply air state."""

    blown_in: Values
    drawn_out: Values
    wall_conductance: Values
    return_conductance: Values
    supply_temperature: Values
    supply_humidity_ratio: Values


def settled(zone: Zone, conditions: Conditions, exchange: Exchange) -> ZoneAir:
    """Steady state of a zone with the blower running.

    Air drawn out by a return leak is replaced from outdoors; air blown in by a supply
    leak leaves to outdoors. The balance is linear in the zone's temperature.

    Parameters
    ----------
    zone : Zone
        The space.
    conditions : Conditions
        Weather and rooms.
    exchange : Exchange
        What the ducts give and take.

    Returns
    -------
    ZoneAir
        Mixed evenly.

    References
    ----------
    .. [1] ASHRAE Handbook, Fundamentals, Nonresidential Load Calculations: sol-air
       temperature; ANSI/ASHRAE 152: buffer-zone balance.
    """
    density = moist_air.density(
        conditions.outdoor_temperature, conditions.outdoor_humidity_ratio, conditions.pressure
    )
    outdoor_flow = zone.vent_airflow * density + exchange.drawn_out
    heat_capacity = moist_air.heat_capacity(conditions.outdoor_humidity_ratio)
    outdoor = outdoor_flow * heat_capacity
    blown = exchange.blown_in * moist_air.heat_capacity(exchange.supply_humidity_ratio)
    shell = conditions.outdoor_temperature + zone.sun_share * conditions.solar
    total = (
        zone.shell_conductance
        + zone.ground_conductance
        + zone.house_conductance
        + exchange.wall_conductance
        + exchange.return_conductance
        + outdoor
        + blown
    )
    gained = (
        zone.shell_conductance * shell
        + zone.ground_conductance * zone.ground_temperature
        + (zone.house_conductance + exchange.return_conductance) * conditions.indoor_temperature
        + (exchange.wall_conductance + blown) * exchange.supply_temperature
        + outdoor * conditions.outdoor_temperature
    )
    water = (
        outdoor_flow * conditions.outdoor_humidity_ratio
        + exchange.blown_in * exchange.supply_humidity_ratio
        + zone.moisture_gain
    )
    temperature = gained / total
    # What the air cannot hold settles on the walls of the zone.
    held = moist_air.saturated_humidity_ratio(temperature, conditions.pressure)
    return ZoneAir(temperature, np.minimum(water / (outdoor_flow + exchange.blown_in), held))
