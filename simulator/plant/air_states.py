"""Air along its path: coil, plenum, zones around the ducts, return duct."""

from typing import NamedTuple

import numpy as np

from simulator.components import electric_strips
from simulator.components.indoor_coil import CoilAir
from simulator.plant import zone_balance
from simulator.plant.case import Case
from simulator.plant.fixed_air import FixedAir, fixed_air
from simulator.plant.zone_balance import ZoneAir
from simulator.properties import moist_air, saturated_air
from simulator.quantities.values import Values


class AirStates(NamedTuple):
    """Air along its path; temperatures [K], humidity ratios [kg/kg], heat [W].

    The strips' own limit leaves ``strip_power`` of ``strips_called``.
    """

    entering: ZoneAir
    leaving: ZoneAir
    plenum: ZoneAir
    supply_zone: ZoneAir
    return_zone: ZoneAir
    strip_power: Values
    strips_called: Values


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


def air_states(
    case: Case, air: CoilAir, heat: Values, sensible: Values, fixed: FixedAir | None = None
) -> AirStates:
    """Air from coil to rooms and through the zones, for heats already known.

    Parameters
    ----------
    case : Case
        Ducts, zones, weather.
    air : CoilAir
        Entering the coil.
    heat, sensible : float
        Taken by the coil. [W]
    fixed : FixedAir, optional
        Of the same case, where it is at hand.

    Returns
    -------
    AirStates
        Energy closes exactly: each state follows from enthalpy and humidity.
    """
    flow, fixed = air.mass_flow, fixed or fixed_air(case)
    leaving_temperature = air.temperature - sensible / (flow * air.heat_capacity)
    leaving_enthalpy = air.enthalpy - heat / flow
    wet: Values = moist_air.humidity_ratio_from_enthalpy(leaving_temperature, leaving_enthalpy)
    # Neither drier than nothing, nor wetter than it came, nor wetter than saturated air.
    wet = np.minimum(wet, air.humidity_ratio)
    humidity = saturated_air.without_fog(leaving_enthalpy, wet, air.pressure)
    leaving = ZoneAir(moist_air.temperature_from_enthalpy(leaving_enthalpy, humidity), humidity)
    strips = fixed.strip_power
    if np.any(strips):
        hottest = moist_air.enthalpy(electric_strips.LIMIT_OPENS, humidity)
        most = flow * (hottest - leaving_enthalpy) - case.path.blower_power
        strips = electric_strips.limited_power(strips, most)
    warmed = leaving_enthalpy + (case.path.blower_power + strips) / flow
    plenum = ZoneAir(moist_air.temperature_from_enthalpy(warmed, humidity), humidity)

    supply_zone, return_zone = _zones(case, fixed, plenum)
    return AirStates(
        ZoneAir(air.temperature, air.humidity_ratio),
        leaving,
        plenum,
        supply_zone,
        return_zone,
        strips,
        fixed.strip_power,
    )


def _zones(case: Case, fixed: FixedAir, plenum: ZoneAir) -> tuple[ZoneAir, ZoneAir]:
    """Spaces around the supply ducts and around the return."""
    shared, own = case.installation.zones_shared, fixed.return_zone
    supply_zone = zone_balance.settled(fixed.supply_zone, plenum)
    return_zone = ZoneAir(
        shared * supply_zone.temperature + (1.0 - shared) * own.temperature,
        shared * supply_zone.humidity_ratio + (1.0 - shared) * own.humidity_ratio,
    )
    return supply_zone, return_zone


def entering_coil(
    case: Case, return_zone: ZoneAir, plenum: ZoneAir, fixed: FixedAir | None = None
) -> ZoneAir:
    """Room air through the return duct, mixed with what leaks in and what is bypassed.

    Parameters
    ----------
    case : Case
        Ducts, rooms.
    return_zone : ZoneAir
        Around the return.
    plenum : ZoneAir
        Supply air, of which a bypass returns a part.
    fixed : FixedAir, optional
        Of the same case, where it is at hand.

    Returns
    -------
    ZoneAir
        Mixed by mass, on enthalpy and humidity.
    """
    conditions, path = case.conditions, case.path
    fade = (fixed or fixed_air(case)).return_fade
    room = return_zone.temperature + fade * (
        conditions.indoor_temperature - return_zone.temperature
    )
    shares = path.room_share, path.return_share, path.bypass_share
    parts = ZoneAir(room, conditions.indoor_humidity_ratio), return_zone, plenum
    humidity = sum(s * air.humidity_ratio for s, air in zip(shares, parts, strict=True))
    enthalpy = sum(s * moist_air.enthalpy(*air) for s, air in zip(shares, parts, strict=True))
    return ZoneAir(moist_air.temperature_from_enthalpy(enthalpy, humidity), humidity)
