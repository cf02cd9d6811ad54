"""What of the air does not depend on the unknowns: worked out once for each case."""

from typing import NamedTuple

import numpy as np

from simulator.components import electric_strips
from simulator.plant import coil_duty, zone_balance
from simulator.plant.case import Case
from simulator.plant.coil_duty import Duty
from simulator.plant.zone_balance import Exchange, ZoneAir, ZoneTerms
from simulator.properties import moist_air
from simulator.quantities.values import Values


class FixedAir(NamedTuple):
    """Air that stays as it is while the plant settles.

    Parameters
    ----------
    outdoors : Duty
        The outdoor coil and the air entering it.
    supply_zone : ZoneTerms
        Around the supply ducts.
    return_zone : ZoneAir
        Around the return ducts, as far as that is a space of its own.
    return_fade : float
        What is left of the difference between rooms and zone behind the return duct. [-]
    strip_power : float
        [W]
    """

    outdoors: Duty
    supply_zone: ZoneTerms
    return_zone: ZoneAir
    return_fade: Values
    strip_power: Values


def fixed_air(case: Case) -> FixedAir:
    """What of the air does not depend on the unknowns.

    Parameters
    ----------
    case : Case
        Floats or arrays of shape (n,).

    Returns
    -------
    FixedAir
        Likewise.
    """
    installation, conditions, path = case.installation, case.conditions, case.path
    unit, ducts, shared = installation.unit, installation.ducts, installation.zones_shared
    drawn = path.return_share * path.mass_flow
    own = path.mass_flow * path.room_share
    own = own * moist_air.heat_capacity(conditions.indoor_humidity_ratio)
    fade = np.exp(-ducts.return_conductance / own)
    return_wall = own * (1.0 - fade)
    around_supply = Exchange(
        path.supply_leak * path.mass_flow, drawn * shared, supply_walls(case), return_wall * shared
    )
    around_return = Exchange(0.0, drawn, 0.0, return_wall)
    rooms = ZoneAir(conditions.indoor_temperature, conditions.indoor_humidity_ratio)
    outside = coil_duty.outdoor_air(unit, conditions)
    return FixedAir(
        outdoors=coil_duty.outdoors(unit, outside, boiling=conditions.mode == "heating"),
        supply_zone=zone_balance.terms(installation.supply_zone, conditions, around_supply),
        # No supply air reaches it, so any air will do for that.
        return_zone=zone_balance.settled(
            zone_balance.terms(installation.return_zone, conditions, around_return), rooms
        ),
        return_fade=fade,
        strip_power=electric_strips.strip_power(unit.strips, conditions.voltage),
    )


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


def supply_walls(case: Case) -> Values:
    """Conductance between supply plenum and zone through the supply ducts' walls.

    Parameters
    ----------
    case : Case
        Ducts and flow.

    Returns
    -------
    float
        [W/K]
    """
    path = case.path
    heat_capacity = moist_air.heat_capacity(case.conditions.indoor_humidity_ratio)
    through = path.mass_flow * path.register_share * heat_capacity
    return through * sum(
        share * (1.0 - fade) for share, fade in zip(path.room_shares, run_fades(case), strict=True)
    )


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
    conditions, installation = case.conditions, case.installation
    idle = Exchange(0.0, 0.0, 0.0, 0.0)
    rooms = ZoneAir(conditions.indoor_temperature, conditions.indoor_humidity_ratio)
    supply_zone, return_zone = (
        zone_balance.settled(zone_balance.terms(zone, conditions, idle), rooms)
        for zone in (installation.supply_zone, installation.return_zone)
    )
    return supply_zone, return_zone
