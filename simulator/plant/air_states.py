"""Air along its path: coil, plenum, zones around the ducts, return duct."""

from typing import NamedTuple

import numpy as np

from simulator.components import electric_strips
from simulator.components.indoor_coil import CoilAir
from simulator.plant import zone_balance
from simulator.plant.case import Case
from simulator.plant.zone_balance import Exchange, ZoneAir
from simulator.properties import moist_air, saturated_air
from simulator.quantities.values import Values


class AirStates(NamedTuple):
    """Air along its path; temperatures [K], humidity ratios [kg/kg], heat [W]."""

    entering: ZoneAir
    leaving: ZoneAir
    plenum: ZoneAir
    supply_zone: ZoneAir
    return_zone: ZoneAir
    strip_power: Values


def coil_air(case: Case, temperature: Values, humidity_ratio: Values) -> CoilAir:
    """Air entering the coil, with the properties the coil needs.

    Parameters
    ----------
    case : Case
        Gives flow and barometric pressure.
    temperature : float
        [K]
    humidity_ratio : float
        [kg/kg]

    Returns
    -------
    CoilAir
    """
    return CoilAir(
        temperature=temperature,
        humidity_ratio=humidity_ratio,
        enthalpy=moist_air.enthalpy(temperature, humidity_ratio),
        mass_flow=case.path.mass_flow,
        heat_capacity=moist_air.heat_capacity(humidity_ratio),
        pressure=case.conditions.pressure,
    )


def air_states(case: Case, air: CoilAir, heat: Values, sensible: Values) -> AirStates:
    """Air from coil to rooms and through the zones, for heats already known.

    Parameters
    ----------
    case : Case
        Ducts, zones, weather.
    air : CoilAir
        Entering the coil.
    heat, sensible : float
        Taken by the coil. [W]

    Returns
    -------
    AirStates
        Energy closes exactly: each state follows from enthalpy and humidity.
    """
    installation, conditions, path = case.installation, case.conditions, case.path
    flow = air.mass_flow
    leaving_temperature = air.temperature - sensible / (flow * air.heat_capacity)
    leaving_enthalpy = air.enthalpy - heat / flow
    wet: Values = moist_air.humidity_ratio_from_enthalpy(leaving_temperature, leaving_enthalpy)
    # Neither drier than nothing, nor wetter than it came, nor wetter than saturated air.
    wet = np.minimum(wet, air.humidity_ratio)
    humidity = saturated_air.without_fog(leaving_enthalpy, wet, conditions.pressure)
    leaving = ZoneAir(moist_air.temperature_from_enthalpy(leaving_enthalpy, humidity), humidity)
    strips = electric_strips.strip_power(installation.unit.strips, conditions.voltage)
    warmed = leaving_enthalpy + (path.blower_power + strips) / flow
    plenum = ZoneAir(moist_air.temperature_from_enthalpy(warmed, humidity), humidity)

    supply_zone, return_zone = _zones(case, plenum)
    return AirStates(
        ZoneAir(air.temperature, air.humidity_ratio),
        leaving,
        plenum,
        supply_zone,
        return_zone,
        strips,
    )


def _zones(case: Case, plenum: ZoneAir) -> tuple[ZoneAir, ZoneAir]:
    """Spaces around the supply ducts and around the return."""
    installation, conditions, path = case.installation, case.conditions, case.path
    flow = path.mass_flow
    shared = installation.zones_shared
    drawn = path.return_share * flow
    walls, return_wall = duct_walls(case)
    around_supply = Exchange(
        path.supply_leak * flow,
        drawn * shared,
        walls,
        return_wall * shared,
        plenum.temperature,
        plenum.humidity_ratio,
    )
    supply_zone = zone_balance.settled(installation.supply_zone, conditions, around_supply)
    around_return = Exchange(
        0.0 * flow, drawn, 0.0, return_wall, plenum.temperature, plenum.humidity_ratio
    )
    own = zone_balance.settled(installation.return_zone, conditions, around_return)
    return_zone = ZoneAir(
        shared * supply_zone.temperature + (1.0 - shared) * own.temperature,
        shared * supply_zone.humidity_ratio + (1.0 - shared) * own.humidity_ratio,
    )
    return supply_zone, return_zone


def run_fades(case: Case) -> tuple[Values, ...]:
    """What is left of the difference to the zone at the end of each supply run.

    Parameters
    ----------
    case : Case
        Ducts and flow.

    Returns
    -------
    tuple
        One value a room. [-]
    """
    ducts, path = case.installation.ducts, case.path
    through = path.mass_flow * path.register_share
    capacity = through * moist_air.heat_capacity(case.conditions.indoor_humidity_ratio)
    return tuple(np.exp(-ducts.supply_conductance * run / capacity) for run in ducts.room_runs)


def duct_walls(case: Case) -> tuple[Values, Values]:
    """Conductance that the zones see through supply and return duct walls.

    Parameters
    ----------
    case : Case
        Ducts and flow.

    Returns
    -------
    tuple
        Between supply plenum and zone, and between rooms and zone. [W/K]
    """
    ducts, path, conditions = case.installation.ducts, case.path, case.conditions
    heat_capacity = moist_air.heat_capacity(conditions.indoor_humidity_ratio)
    through = path.mass_flow * path.register_share * heat_capacity
    supply = through * sum(
        share * (1.0 - fade) for share, fade in zip(path.room_shares, run_fades(case), strict=True)
    )
    own = path.mass_flow * path.room_share * heat_capacity
    return supply, own * -np.expm1(-ducts.return_conductance / own)


def entering_coil(case: Case, return_zone: ZoneAir, plenum: ZoneAir) -> ZoneAir:
    """Room air through the return duct, mixed with what leaks in and what is bypassed.

    Parameters
    ----------
    case : Case
        Ducts, rooms.
    return_zone : ZoneAir
        Around the return.
    plenum : ZoneAir
        Supply air, of which a bypass returns a part.

    Returns
    -------
    ZoneAir
        Mixed by mass, on enthalpy and humidity.
    """
    conditions, path = case.conditions, case.path
    own = path.mass_flow * path.room_share
    capacity = own * moist_air.heat_capacity(conditions.indoor_humidity_ratio)
    fade = np.exp(-case.installation.ducts.return_conductance / capacity)
    room = return_zone.temperature + fade * (
        conditions.indoor_temperature - return_zone.temperature
    )
    shares = path.room_share, path.return_share, path.bypass_share
    parts = ZoneAir(room, conditions.indoor_humidity_ratio), return_zone, plenum
    humidity = sum(s * air.humidity_ratio for s, air in zip(shares, parts, strict=True))
    enthalpy = sum(s * moist_air.enthalpy(*air) for s, air in zip(shares, parts, strict=True))
    return ZoneAir(moist_air.temperature_from_enthalpy(enthalpy, humidity), humidity)


def zone_without_blower(case: Case) -> tuple[ZoneAir, ZoneAir]:
    """Supply zone and return zone with the blower off.

    Parameters
    ----------
    case : Case
        Zones and weather.

    Returns
    -------
    tuple
        Two states.
    """
    conditions = case.conditions
    idle = Exchange(
        0.0, 0.0, 0.0, 0.0, conditions.indoor_temperature, conditions.indoor_humidity_ratio
    )
    return (
        zone_balance.settled(case.installation.supply_zone, conditions, idle),
        zone_balance.settled(case.installation.return_zone, conditions, idle),
    )
