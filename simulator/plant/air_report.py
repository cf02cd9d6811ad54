"""The air side of an operating point, running or not."""

from typing import Any

import numpy as np

from simulator.components.electric_strips import motor_current
from simulator.components.supply_circuit import added_current
from simulator.plant import air_path, fixed_air, house_air
from simulator.plant.air_states import AirStates
from simulator.plant.case import Case
from simulator.quantities.values import Array, Values


def air_fields(case: Case, air: AirStates) -> dict[str, Any]:
    """Air side, blower, strips and rooms.

    Parameters
    ----------
    case : Case
        Flows and pressures.
    air : AirStates
        States along the path.

    Returns
    -------
    dict
        By field name.
    """
    path, conditions = case.path, case.conditions
    fades = fixed_air.run_fades(case)
    zone, plenum = air.supply_zone, air.plenum
    registers = tuple(
        zone.temperature + (plenum.temperature - zone.temperature) * fade for fade in fades
    )
    through = path.airflow * path.register_share
    flows = tuple(through * share for share in path.room_shares)
    rooms = house_air.delivered(case, plenum, registers)
    return {
        **_path_fields(case),
        **_electrical(case, air),
        "grille_temperature": conditions.indoor_temperature,
        "grille_humidity_ratio": conditions.indoor_humidity_ratio,
        "air_handler_return_temperature": air.entering.temperature,
        "air_handler_return_humidity_ratio": air.entering.humidity_ratio,
        "coil_leaving_temperature": air.leaving.temperature,
        "coil_leaving_humidity_ratio": air.leaving.humidity_ratio,
        "supply_plenum_temperature": plenum.temperature,
        "supply_plenum_humidity_ratio": plenum.humidity_ratio,
        "near_register_temperature": registers[0],
        "far_register_temperature": registers[-1],
        "zone_temperature": zone.temperature,
        "zone_humidity_ratio": zone.humidity_ratio,
        "return_zone_temperature": air.return_zone.temperature,
        "return_zone_humidity_ratio": air.return_zone.humidity_ratio,
        "outdoor_temperature": conditions.outdoor_temperature,
        "outdoor_humidity_ratio": conditions.outdoor_humidity_ratio,
        "register_airflow": through,
        "register_airflows": flows,
        "supply_leak_airflow": path.airflow * path.supply_leak,
        "return_leak_airflow": path.airflow * path.return_share,
        "slot_airflow": path.airflow * path.slot_share,
        "delivered_capacity": rooms.total,
        "delivered_sensible": rooms.sensible,
        "house_pressure": rooms.pressure,
        "infiltration_airflow": rooms.infiltration,
        "voltage": conditions.voltage,
        "pressure": conditions.pressure,
    }


def _electrical(case: Case, air: AirStates) -> dict[str, Values]:
    """Blower and strips."""
    volts, blower_power = case.conditions.voltage, case.path.blower_power
    factor = case.installation.unit.blower.power_factor
    blower_current = motor_current(blower_power, volts, factor)
    strip_current = motor_current(air.strip_power, volts, 1.0)
    return {
        "blower_current": blower_current,
        "strip_power": air.strip_power,
        "strip_duty": _strip_duty(air),
        "strip_current": strip_current,
        "air_handler_power": blower_power + air.strip_power,
        "air_handler_current": added_current(
            (blower_power, blower_current, volts), (air.strip_power, strip_current, volts)
        ),
    }


def _strip_duty(air: AirStates) -> Values:
    """What the limit leaves of the strips' time [-]."""
    is_off = np.asarray(air.strips_called == 0.0)
    return np.where(is_off, 1.0, air.strip_power / np.where(is_off, 1.0, air.strips_called))


def _path_fields(case: Case) -> dict[str, Values | Array]:
    path = case.path
    back, out = air_path.trunk_statics(case.installation, path)
    return {
        "airflow": path.airflow,
        "air_mass_flow": path.mass_flow,
        "filter_airflow": path.filter_airflow,
        "static_before_filter": path.before_filter,
        "static_after_filter": path.after_filter,
        "static_after_coil": path.after_coil,
        "static_supply": path.supply,
        "static_return_trunk": back,
        "static_supply_trunk": out,
        "total_external_static": path.supply - path.after_filter,
        "filter_drop": path.before_filter - path.after_filter,
        "coil_drop": path.coil_drop,
        "blower_speed": path.blower_speed,
        "blower_power": path.blower_power,
    }
