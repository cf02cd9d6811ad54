"""The circuit at rest: equalised, everything at the temperature around it."""

from dataclasses import replace
from typing import Any

import numpy as np

from simulator.components import outdoor_coil
from simulator.components.electric_strips import motor_current
from simulator.components.supply_circuit import takes_no_line
from simulator.plant import air_states, fixed_air
from simulator.plant.air_report import air_fields
from simulator.plant.air_states import AirStates
from simulator.plant.case import Case, prepared
from simulator.plant.circuit import GAS_CONSTANT
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.quantities.values import Values


def at_rest(installation: Installation, conditions: Conditions) -> OperatingPoint:
    """A unit that has been off for long, blower off too.

    Parameters
    ----------
    installation : Installation
        As it stands.
    conditions : Conditions
        Weather, rooms, supply.

    Returns
    -------
    OperatingPoint
        Floats, state ``off``.
    """
    case = prepared(installation, conditions)
    fields = values(case, blower_on=False)
    plain = {
        name: tuple(float(part) for part in value) if isinstance(value, tuple) else float(value)
        for name, value in fields.items()
    }
    return OperatingPoint(state="off", mode=case.conditions.mode, **plain)  # type: ignore[arg-type]


def standing_pressure(case: Case) -> Values:
    """Pressure of the equalised circuit.

    Refrigerant at its saturation pressure at outdoor temperature, as long as liquid is
    left, plus the partial pressure of any air in it (Dalton).

    Parameters
    ----------
    case : Case
        Circuit and weather.

    Returns
    -------
    float
        Absolute. [Pa]
    """
    unit, outdoor = case.installation.unit, case.conditions.outdoor_temperature
    lines = unit.lines
    volume = (
        unit.outdoor_coil.tube_volume
        + unit.indoor_coil.tube_volume
        + lines.suction_volume
        + lines.liquid_volume
        + lines.discharge_volume
        + lines.shell_volume
    )
    saturated = case.fluid.dew_pressure(outdoor)
    line = case.fluid.saturation(np.log(saturated))
    all_vapour = line.vapour_density * volume
    pressure = saturated * np.minimum(1.0, unit.charge / all_vapour)
    liquid = np.maximum(unit.charge - all_vapour, 0.0) / line.liquid_density
    return pressure + unit.foreign_gas * GAS_CONSTANT * outdoor / (volume - liquid)


def values(case: Case, *, blower_on: bool) -> dict[str, Any]:
    """All fields of an installation whose compressor stands.

    Parameters
    ----------
    case : Case
        Circuit, air path, weather.
    blower_on : bool
        Whether air still moves.

    Returns
    -------
    dict
        By field name.
    """
    conditions = case.conditions
    fields = air_fields(case, _unconditioned(case))
    if not blower_on:
        fields = {**fields, **_still_air(case, fields)}
        # Everything is off, the call too.
        case = case._replace(conditions=replace(case.conditions, compressor_call=0.0))
    pressure = standing_pressure(case)
    outdoor, indoor = conditions.outdoor_temperature, conditions.indoor_temperature
    zeros = dict.fromkeys(_AT_ZERO, 0.0 * np.asarray(outdoor))
    return {
        **fields,
        **zeros,
        **dict.fromkeys(_EQUALISED, pressure),
        **dict.fromkeys(_OUTDOORS, outdoor),
        **dict.fromkeys(_INDOORS, indoor),
        "refrigerant_charge": case.installation.unit.charge,
        "compressor_voltage": case.conditions.voltage * _closed(case) * (1.0 - _dead(case)),
        **_fan_left_running(case),
        "compressor_power_factor": case.installation.unit.compressor.power_factor,
    }


def _dead(case: Case) -> Values:
    """1 where the outdoor unit is off the line."""
    unit = case.installation.unit
    insulation = unit.compressor.winding_insulation
    return takes_no_line(unit.supply_circuit, case.conditions.voltage, insulation)


def _closed(case: Case) -> Values:
    """1 where 24 V hold the contactor in."""
    unit = case.installation.unit
    through = (1.0 - np.asarray(unit.float_switch_open)) * (
        1.0 - np.asarray(unit.leak_detector_open)
    )
    return np.asarray(case.conditions.compressor_call) * through


def _fan_left_running(case: Case) -> dict[str, Values]:
    """The outdoor fan runs on where only the compressor's own circuit is open."""
    unit, conditions = case.installation.unit, case.conditions
    coil = unit.outdoor_coil
    on = unit.compressor.is_open * _closed(case) * (1.0 - _dead(case))
    power = on * outdoor_coil.fan_power(coil)
    current = motor_current(power, conditions.voltage, coil.fan_power_factor)
    return {
        "outdoor_fan_power": power,
        "outdoor_fan_current": current,
        "outdoor_power": power,
        "outdoor_current": current,
        "outdoor_airflow": on * outdoor_coil.outdoor_airflow(coil),
    }


_EQUALISED = ("suction_pressure", "liquid_pressure", "vapour_port_pressure", "discharge_pressure")
_AT_ZERO = (
    "reversing_valve_rise",
    "evaporator_heat",
    "frost_rate",
    "vapour_line_loss",
    "contact_loss",
    "superheat",
    "coil_superheat",
    "subcooling",
    "refrigerant_flow",
    "gross_capacity",
    "sensible_capacity",
    "condensate_rate",
    "heat_rejected",
    "suction_line_gain",
    "compressor_power",
    "compressor_shell_loss",
    "compressor_current",
)
_OUTDOORS = (
    "condensing_temperature",
    "suction_line_temperature",
    "vapour_line_temperature",
    "discharge_temperature",
    "liquid_line_temperature",
    "outdoor_leaving_temperature",
    "evaporating_temperature",
    "boiling_surface_temperature",
    "liquid_after_drier_temperature",
)
_INDOORS = ("evaporator_outlet_temperature",)


def _unconditioned(case: Case) -> AirStates:
    """Air path with a coil that takes no heat; leaks and strips still act."""
    conditions = case.conditions
    air = air_states.coil_air(case, conditions.indoor_temperature, conditions.indoor_humidity_ratio)
    fixed = fixed_air.fixed_air(case)
    states = air_states.air_states(case, air, 0.0, 0.0, fixed)
    for _ in range(6):
        mixed = air_states.entering_coil(case, states.return_zone, states.plenum, fixed)
        air = air_states.coil_air(case, mixed.temperature, mixed.humidity_ratio)
        states = air_states.air_states(case, air, 0.0, 0.0, fixed)
    return states


_MOVING = (
    "airflow",
    "air_mass_flow",
    "filter_airflow",
    "static_before_filter",
    "static_after_filter",
    "static_after_coil",
    "static_supply",
    "static_return_trunk",
    "static_supply_trunk",
    "total_external_static",
    "filter_drop",
    "coil_drop",
    "blower_speed",
    "blower_power",
    "blower_current",
    "strip_power",
    "strip_current",
    "air_handler_power",
    "air_handler_current",
    "register_airflow",
    "supply_leak_airflow",
    "return_leak_airflow",
    "slot_airflow",
    "delivered_capacity",
    "delivered_sensible",
    "house_pressure",
)
_ROOM_AIR = ("air_handler_return", "coil_leaving", "supply_plenum")


def _still_air(case: Case, fields: dict[str, Any]) -> dict[str, Any]:
    """Nothing blows: flows and pressures are zero, duct air is room air."""
    conditions, house = case.conditions, case.installation.house
    room = conditions.indoor_temperature
    still = dict.fromkeys(_MOVING, 0.0 * np.asarray(room))
    for place in _ROOM_AIR:
        still[f"{place}_temperature"] = np.asarray(room)
        still[f"{place}_humidity_ratio"] = np.asarray(conditions.indoor_humidity_ratio)
    quiet = fixed_air.zone_without_blower(case)
    return {
        **still,
        "near_register_temperature": room,
        "far_register_temperature": room,
        "zone_temperature": quiet[0].temperature,
        "zone_humidity_ratio": quiet[0].humidity_ratio,
        "return_zone_temperature": quiet[1].temperature,
        "return_zone_humidity_ratio": quiet[1].humidity_ratio,
        "infiltration_airflow": house.natural_infiltration,
        "register_airflows": tuple(0.0 * np.asarray(part) for part in fields["register_airflows"]),
    }
