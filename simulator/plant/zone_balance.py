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
    """What ducts do to a zone: flows [kg/s] and wall conductances [W/K]."""

    blown_in: Values
    drawn_out: Values
    wall_conductance: Values
    return_conductance: Values


class ZoneTerms(NamedTuple):
    """A zone's balance but for its supply air: [W/K], [W], [kg/s], [W/K], [kg/s], [kg/s], [Pa].

    ``conductance`` is the sum of all but what is blown in, ``gained`` what flows through
    all but the supply ducts' walls.
    """

    conductance: Values
    gained: Values
    water: Values
    wall_conductance: Values
    blown_in: Values
    airflow: Values
    pressure: Values


def terms(zone: Zone, conditions: Conditions, exchange: Exchange) -> ZoneTerms:
    """What of a zone's balance the supply air does not change.

    Air drawn out by a return leak is replaced from outdoors; air blown in by a supply
    leak leaves to outdoors.

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
    ZoneTerms
    """
    density = moist_air.density(
        conditions.outdoor_temperature, conditions.outdoor_humidity_ratio, conditions.pressure
    )
    outdoor_flow = zone.vent_airflow * density + exchange.drawn_out
    outdoor = outdoor_flow * moist_air.heat_capacity(conditions.outdoor_humidity_ratio)
    shell = conditions.outdoor_temperature + zone.sun_share * conditions.solar
    rooms = zone.house_conductance + exchange.return_conductance
    return ZoneTerms(
        conductance=zone.shell_conductance
        + zone.ground_conductance
        + rooms
        + exchange.wall_conductance
        + outdoor,
        gained=zone.shell_conductance * shell
        + zone.ground_conductance * zone.ground_temperature
        + rooms * conditions.indoor_temperature
        + outdoor * conditions.outdoor_temperature,
        water=outdoor_flow * conditions.outdoor_humidity_ratio + zone.moisture_gain,
        wall_conductance=exchange.wall_conductance,
        blown_in=exchange.blown_in,
        airflow=outdoor_flow + exchange.blown_in,
        pressure=conditions.pressure,
    )


def settled(zone: ZoneTerms, supply: ZoneAir) -> ZoneAir:
    """Steady state of a zone with the blower running.

    The balance is linear in the zone's temperature.

    Parameters
    ----------
    zone : ZoneTerms
        The space and what the ducts do to it.
    supply : ZoneAir
        Air in the supply ducts.

    Returns
    -------
    ZoneAir
        Mixed evenly.

    References
    ----------
    .. [1] ASHRAE Handbook, Fundamentals, Nonresidential Load Calculations: sol-air
       temperature; ANSI/ASHRAE 152: buffer-zone balance.
    """
    blown = zone.blown_in * moist_air.heat_capacity(supply.humidity_ratio)
    gained = zone.gained + (zone.wall_conductance + blown) * supply.temperature
    temperature = gained / (zone.conductance + blown)
    water = zone.water + zone.blown_in * supply.humidity_ratio
    # What the air cannot hold settles on the walls of the zone.
    held = moist_air.saturated_humidity_ratio(temperature, zone.pressure)
    return ZoneAir(temperature, np.minimum(water / zone.airflow, held))
