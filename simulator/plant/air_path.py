"""Airflow and static pressures: blower against filter, coil, ducts and openings."""

from typing import NamedTuple

import numpy as np

from simulator.components import air_resistance, blower
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
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
    room = (
        conditions.indoor_temperature,
        conditions.indoor_humidity_ratio,
        conditions.pressure,
    )
    density = moist_air.density(*room)
    rated = unit.rated_airflow
    inlet = air_resistance.square_resistance(
        ducts.return_drop + ducts.clean_filter_drop * ducts.filter_loading, rated
    )
    # Slot and grille both pull with the root of the same suction: fixed shares.
    through_slot = air_resistance.opening_conductance(ducts.slot_area, density)
    through_filter = (1.0 - ducts.return_leak) / np.sqrt(inlet)
    slot_share = through_slot / (through_slot + through_filter)
    house_share = (1.0 - slot_share) * (1.0 - ducts.return_leak)
    dew_point = moist_air.dew_point(conditions.indoor_humidity_ratio, conditions.pressure)
    wetness = 1.0 / (1.0 + np.exp(-(dew_point - WATER_ON_COIL) / 1.0))
    dry = unit.indoor_coil.dry_share
    coil = unit.indoor_coil.wet_pressure_drop * (dry + (1.0 - dry) * wetness) / rated**1.8
    coil = coil / (1.0 - 0.97 * unit.indoor_coil.ice) ** 3
    open_branches = tuple(
        share * opening
        for share, opening in zip(ducts.room_shares, ducts.damper_openings, strict=True)
    )
    open_share = sum(open_branches)
    supply = air_resistance.square_resistance(ducts.supply_drop, rated) / open_share**2
    bypass = ducts.bypass_share
    register_share = (1.0 - bypass) * (1.0 - ducts.supply_leak)
    room_share = np.maximum(house_share - bypass, 1e-3)
    return_duct = air_resistance.square_resistance(ducts.return_drop, rated)
    filter_square = inlet - return_duct
    square = (
        return_duct * room_share**2 + filter_square * house_share**2 + supply * register_share**2
    )
    point = blower.run_against(unit.blower, square, coil, density)
    flow = point.airflow
    filter_flow = flow * house_share
    grille_drop = return_duct * (flow * room_share) ** 2
    after_filter = -grille_drop - filter_square * filter_flow**2
    coil_drop = coil * flow**1.8
    return AirPath(
        airflow=flow,
        mass_flow=flow * density,
        filter_airflow=filter_flow,
        slot_share=slot_share,
        return_share=1.0 - house_share,
        room_share=room_share,
        bypass_share=house_share - room_share,
        supply_leak=(1.0 - bypass) * ducts.supply_leak,
        register_share=register_share,
        room_shares=tuple(branch / open_share for branch in open_branches),
        before_filter=-grille_drop,
        after_filter=after_filter,
        after_coil=after_filter - coil_drop,
        supply=supply * (flow * register_share) ** 2,
        coil_drop=coil_drop,
        blower_speed=point.speed,
        blower_power=point.power,
    )
