"""Airflow and static pressures: blower against filter, coil, ducts and openings."""

from typing import NamedTuple

import numpy as np

from simulator.components import air_resistance, blower, indoor_coil
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Ducts, Installation, Unit
from simulator.properties import moist_air
from simulator.quantities.values import Values

WATER_ON_COIL = 284.15  # a coil is taken as wet above this dew point [K]; common practice


class AirPath(NamedTuple):
    """Flows [m³/s], pressures against the room [Pa], shares of the fan flow [-]."""

    airflow: Values
    mass_flow: Values
    filter_airflow: Values
    slot_share: Values
    return_share: Values
    room_share: Values
    bypass_share: Values
    supply_leak: Values
    register_share: Values
    room_shares: tuple[Values, ...]
    before_filter: Values
    after_filter: Values
    after_coil: Values
    supply: Values
    coil_drop: Values
    blower_speed: Values
    blower_power: Values


def settle(installation: Installation, conditions: Conditions) -> AirPath:
    """Where the blower runs against this air path.

    Return leaks and the filter slot open between filter and coil, so what they let in
    never meets the filter. A leak takes its share out of the duct it sits in, which
    lowers that duct's drop by (1 - leak)². Branches are parallel: a closed damper raises
    the drop of the supply duct by the square of what is left open.

    Parameters
    ----------
    installation : Installation
        As it stands, leaks included.
    conditions : Conditions
        Room air and barometric pressure.

    Returns
    -------
    AirPath
        Floats, or arrays of shape (n,).
    """
    unit, ducts = installation.unit, installation.ducts
    bypass = _bypass(ducts, conditions.zone_call)
    density = _density(conditions)

    def square(drop: Values) -> Values:
        return air_resistance.square_resistance(drop, unit.rated_airflow, density)

    return_duct = square(ducts.return_drop)
    filter_square = square(ducts.clean_filter_drop * ducts.filter_loading)
    # Slot and grille both pull with the root of the same suction: fixed shares.
    through_slot = air_resistance.opening_conductance(ducts.slot_area, density)
    through_filter = 1.0 / (1.0 - ducts.return_leak) / np.sqrt(return_duct + filter_square)
    slot_share = through_slot / (through_slot + through_filter)
    house_share = (1.0 - slot_share) * (1.0 - ducts.return_leak)
    room_share = np.maximum(house_share - bypass, 1e-3)
    left_open, room_shares = _branches(ducts, conditions.zone_call)
    supply = square(ducts.supply_drop) / left_open**2
    register_share = (1.0 - bypass) * (1.0 - ducts.supply_leak)
    coil = _coil_resistance(unit, conditions, density)
    whole = return_duct * room_share**2 + filter_square * house_share**2
    whole = whole + supply * register_share**2
    point = blower.run_against(unit.blower, whole, coil, density)
    flow = point.airflow
    before_filter = -return_duct * (flow * room_share) ** 2
    after_filter = before_filter - filter_square * (flow * house_share) ** 2
    coil_drop = coil * flow**1.8
    return AirPath(
        airflow=flow,
        mass_flow=flow * density,
        filter_airflow=flow * house_share,
        slot_share=slot_share,
        return_share=1.0 - house_share,
        room_share=room_share,
        bypass_share=house_share - room_share,
        supply_leak=(1.0 - bypass) * ducts.supply_leak,
        register_share=register_share,
        room_shares=room_shares,
        before_filter=before_filter,
        after_filter=after_filter,
        after_coil=after_filter - coil_drop,
        supply=supply * (flow * register_share) ** 2,
        coil_drop=coil_drop,
        blower_speed=point.speed,
        blower_power=point.power,
    )


def trunk_statics(installation: Installation, path: AirPath) -> tuple[Values, Values]:
    """Pressures where a tap in each trunk sits.

    What branches and registers hold back lies behind the supply's tap, what the grille holds
    back before the return's; all that is added to a duct lies between tap and air handler.

    Parameters
    ----------
    installation : Installation
        As it stands.
    path : AirPath
        Where its blower runs.

    Returns
    -------
    tuple
        Return and supply, against the room. [Pa]
    """
    ducts, rated = installation.ducts, installation.unit.rated_airflow
    air = path.mass_flow / path.airflow
    back = air_resistance.square_resistance(
        ducts.return_drop - ducts.return_grille_drop, rated, air
    )
    out = air_resistance.square_resistance(ducts.supply_drop - ducts.supply_branch_drop, rated, air)
    return (
        path.before_filter + back * (path.airflow * path.room_share) ** 2,
        path.supply - out * (path.airflow * path.register_share) ** 2,
    )


def _bypass(ducts: Ducts, zone_call: Values) -> Values:
    """Share of the fan flow that returns at once [-]."""
    return ducts.bypass_share + ducts.zoned_bypass_share * np.where(np.asarray(zone_call) > 0, 1, 0)


def _branches(ducts: Ducts, zone_call: Values) -> tuple[Values, tuple[Values, ...]]:
    """What is open of the supply duct's branches, and what each room gets of its flow [-]."""
    called, resting = np.asarray(zone_call), ducts.zone_dampers

    def damper(zone: Values) -> Values:
        second = np.asarray(zone) > 1.5
        mine = np.where(second, resting[1][0], resting[0][0])
        idle = np.where(second, resting[1][1], resting[0][1])
        return np.where((called == 0.0) | (called == zone), mine, idle)

    branches = tuple(
        share * opening * damper(zone)
        for share, opening, zone in zip(
            ducts.room_shares, ducts.damper_openings, ducts.room_zones, strict=True
        )
    )
    left_open = sum(branches)
    return left_open, tuple(branch / left_open for branch in branches)


def _density(conditions: Conditions) -> Values:
    """Of room air [kg/m³]."""
    return moist_air.density(
        conditions.indoor_temperature, conditions.indoor_humidity_ratio, conditions.pressure
    )


def _coil_resistance(unit: Unit, conditions: Conditions, density: Values) -> Values:
    """Coil drop over flow to the power 1.8; water and ice narrow the passages."""
    coil = unit.indoor_coil
    dew_point = moist_air.dew_point(conditions.indoor_humidity_ratio, conditions.pressure)
    wetness = 1.0 / (1.0 + np.exp(-(dew_point - WATER_ON_COIL) / 1.0))
    if conditions.mode == "heating":
        wetness = 0.0 * wetness
    drop = coil.wet_pressure_drop * (coil.dry_share + (1.0 - coil.dry_share) * wetness)
    drop = drop / indoor_coil.free_passage(coil) ** 3
    return air_resistance.coil_resistance(drop, unit.rated_airflow, density)
