"""The test stand as a function: weather and faults in, exact readings and truth out."""

from dataclasses import fields
from typing import Any

from simulator.plant import charge_test, steady
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.plant.short_cycle import short_cycle
from simulator.properties.moist_air import ZERO_CELSIUS
from simulator.quantities.shown import show, to_display
from simulator.serve.stand import house_day
from simulator.serve.stand.fault_fit import unfit
from simulator.serve.stand.gauges import GAUGE_FED, by_gauges
from simulator.serve.stand.given import need_known
from simulator.serve.stand.notes import beside, unsolved_said
from simulator.serve.stand.setting import (
    Setting,
    checked,
    conditions_of,
    healthy_installation,
    installation_of,
)

STANDING = {"charge_test_valid": "flag"}  # whether superheat and subcooling mean anything now
CYCLING = {"minutes_on": "duration", "minutes_off": "duration"}
# What tools would show, and what only the plant knows: field of the operating point, kind.
READINGS: dict[str, tuple[str, str]] = {
    "suction_pressure": ("suction_pressure", "gauge_pressure"),
    "liquid_pressure": ("liquid_pressure", "gauge_pressure"),
    "suction_line_temperature": ("suction_line_temperature", "temperature"),
    "liquid_line_temperature": ("liquid_line_temperature", "temperature"),
    "liquid_after_drier_temperature": ("liquid_after_drier_temperature", "temperature"),
    "discharge_temperature": ("discharge_temperature", "temperature"),
    "superheat": ("superheat", "temperature_difference"),
    "subcooling": ("subcooling", "temperature_difference"),
    "outdoor_leaving_temperature": ("outdoor_leaving_temperature", "temperature"),
    "return_temperature": ("grille_temperature", "temperature"),
    "air_handler_return_temperature": ("air_handler_return_temperature", "temperature"),
    "supply_plenum_temperature": ("supply_plenum_temperature", "temperature"),
    "near_register_temperature": ("near_register_temperature", "temperature"),
    "far_register_temperature": ("far_register_temperature", "temperature"),
    "static_before_filter": ("static_before_filter", "static_pressure"),
    "static_after_filter": ("static_after_filter", "static_pressure"),
    "static_after_coil": ("static_after_coil", "static_pressure"),
    "static_supply": ("static_supply", "static_pressure"),
    "total_external_static": ("total_external_static", "static_pressure"),
    "filter_drop": ("filter_drop", "static_pressure"),
    "coil_drop": ("coil_drop", "static_pressure"),
    "airflow": ("airflow", "airflow"),
    "register_airflow": ("register_airflow", "airflow"),
    "compressor_current": ("compressor_current", "current"),
    "outdoor_current": ("outdoor_current", "current"),
    "outdoor_power": ("outdoor_power", "power"),
    "air_handler_current": ("air_handler_current", "current"),
    "strip_current": ("strip_current", "current"),
    "voltage": ("voltage", "voltage"),
    "condensate_rate": ("condensate_rate", "condensate_rate"),
    "house_pressure": ("house_pressure", "house_pressure"),
}
TRUTH: dict[str, tuple[str, str]] = {
    "evaporating_temperature": ("evaporating_temperature", "temperature"),
    "condensing_temperature": ("condensing_temperature", "temperature"),
    "gross_capacity": ("gross_capacity", "heat_rate"),
    "gross_power": ("outdoor_power", "power"),
    "air_handler_power": ("air_handler_power", "power"),
    "delivered_capacity": ("delivered_capacity", "heat_rate"),
    "refrigerant_charge": ("refrigerant_charge", "mass"),
    "supply_leak_airflow": ("supply_leak_airflow", "airflow"),
    "return_leak_airflow": ("return_leak_airflow", "airflow"),
    "strip_duty": ("strip_duty", "fraction"),
    "zone_temperature": ("zone_temperature", "temperature"),
    "return_zone_temperature": ("return_zone_temperature", "temperature"),
}
# The same while heating: the large pipe carries hot gas, and the outdoor coil frost.
HEATING_READINGS: dict[str, tuple[str, str]] = {
    "vapour_line_pressure": ("vapour_port_pressure", "gauge_pressure"),
    "vapour_line_temperature": ("vapour_line_temperature", "temperature"),
    "reversing_valve_rise": ("reversing_valve_rise", "temperature_difference"),
}
HEATING_TRUTH: dict[str, tuple[str, str]] = {
    "evaporator_heat": ("evaporator_heat", "heat_rate"),
    "vapour_line_loss": ("vapour_line_loss", "heat_rate"),
}
# Worked out from several fields, each with its kind; flags are one for yes and zero for no.
WORKED_OUT: dict[str, str] = {
    "temperature_split": "temperature_difference",
    "temperature_rise": "temperature_difference",
    "cop": "ratio",
    "sensible_heat_ratio": "ratio",
    "frost_rate": "condensate_rate",
    "coil_below_freezing": "flag",
    "collecting_frost": "flag",
}


def readings(**asked: Any) -> dict[str, Any]:
    """Exact readings and truth of the reference installation.

    Parameters
    ----------
    **asked
        As ``Setting``: mode, unit, refrigerant, metering, motor, zone, house, strips,
        zone_call, gauges, outdoor, outdoor_wb, return_db, return_wb (°F), airflow (of rated),
        altitude (ft), faults (severity by name); unit and house may be paths of files.

    Returns
    -------
    dict
        ``state``, ``mode`` (what the circuit does), ``readings`` and ``truth``; the last two
        hold value and unit by name. ``notes`` where a fault that was asked for means nothing,
        the gauges use another table, or a trip is told for want of tables: a sentence each.

    Raises
    ------
    BadEntry
        Naming what was wrong and what is allowed.

    Examples
    --------
    >>> found = readings(outdoor=95, faults={"undercharge": 0.2})
    >>> found["readings"]["subcooling"]["unit"]
    '°F'
    """
    need_known(asked, [known.name for known in fields(Setting)])
    setting = checked(Setting(**asked), paths_too=True)
    built, around = installation_of(setting), conditions_of(setting)
    point = steady.solve(built, around)
    table = as_table(point, setting.mode, setting.gauges)
    wanted = asked.get("faults", {})
    reasons = unfit(healthy_installation(setting), setting.mode, wanted)
    notes = [why for name, why in reasons.items() if wanted.get(name)]
    notes += unsolved_said(point.state) + beside(setting, built, point)
    table |= {"notes": notes} if notes else {}
    table["truth"] |= house_day.truth(built, around) | _cycling(built, around, point.state)
    valid = charge_test.is_valid(built, point, setting.gauges)
    table["truth"]["charge_test_valid"] = {"value": float(valid), "unit": ""}
    return table


def _cycling(built: Installation, around: Conditions, state: str) -> dict[str, dict[str, Any]]:
    """Minutes on and off of a unit that trips on high pressure and starts again, if it does."""
    turn = short_cycle(built, around) if state == "high_pressure_trip" else None
    if turn is None:
        return {}
    return {
        "minutes_on": value_and_unit(turn.on_seconds, "duration"),
        "minutes_off": value_and_unit(turn.off_seconds, "duration"),
    }


def solved(setting: Setting) -> OperatingPoint:
    """The settled state of a setting.

    Parameters
    ----------
    setting : Setting
        Checked.

    Returns
    -------
    OperatingPoint
        Floats.
    """
    return steady.solve(installation_of(setting), conditions_of(setting))


def as_table(
    point: OperatingPoint, called: str = "cooling", gauges: str | None = None
) -> dict[str, Any]:
    """An operating point in the technician's units.

    Parameters
    ----------
    point : OperatingPoint
        Floats.
    called : str
        What the thermostat calls for: which readings are of use.
    gauges : str, optional
        Refrigerant that the gauges are set to; else the right one.

    Returns
    -------
    dict
        As ``readings``.
    """
    heating = called == "heating"
    sources = READINGS | HEATING_READINGS if heating else READINGS
    hidden = TRUTH | HEATING_TRUTH if heating else TRUTH
    shown = {name: entry(point, *source) for name, source in sources.items()}
    truth = {name: entry(point, *source) for name, source in hidden.items()}
    for name in GAUGE_FED if gauges else ():
        shown[name] = value_and_unit(by_gauges(name, point, str(gauges)), "temperature_difference")
    rise = point.supply_plenum_temperature - point.air_handler_return_temperature
    name = "temperature_rise" if heating else "temperature_split"
    shown[name] = value_and_unit(rise if heating else -rise, WORKED_OUT[name])
    capacity, power = point.gross_capacity, point.outdoor_power
    truth["cop"] = value_and_unit(capacity / power if power else 0.0, "ratio")
    sensible = point.sensible_capacity / capacity if capacity else 0.0
    truth["sensible_heat_ratio"] = value_and_unit(sensible, "ratio")
    if heating:
        truth |= frost_of(point)
    return {"state": point.state, "mode": point.mode, "readings": shown, "truth": truth}


def frost_of(point: OperatingPoint) -> dict[str, dict[str, Any]]:
    """What settles on the outdoor coil.

    Parameters
    ----------
    point : OperatingPoint
        Floats, under a call for heat.

    Returns
    -------
    dict
        Value and unit by name: whether the coil's metal is below freezing, whether it collects
        frost, and how fast. Water that runs off a coil above freezing is no frost.
    """
    boils = point.state == "running" and point.mode == "heating"
    freezing = boils and point.boiling_surface_temperature < ZERO_CELSIUS
    rate = float(point.frost_rate) if freezing else 0.0
    row = value_and_unit(rate, WORKED_OUT["frost_rate"])
    # Less than a hundredth of what the display shows is the solver's dust.
    collecting = row["value"] > 1e-3
    return {
        "frost_rate": row if collecting else {**row, "value": 0.0},
        "coil_below_freezing": {"value": float(freezing), "unit": ""},
        "collecting_frost": {"value": float(collecting), "unit": ""},
    }


def entry(point: OperatingPoint, name: str, kind: str) -> dict[str, Any]:
    """One field as value and unit.

    Parameters
    ----------
    point : OperatingPoint
        Floats.
    name : str
        Field.
    kind : str
        Of quantity.

    Returns
    -------
    dict
        ``value`` and ``unit``.
    """
    return value_and_unit(read(point, name, kind), kind)


def read(point: OperatingPoint, name: str, kind: str) -> Any:
    """One field as a tool reads it: pressures above the barometer.

    Parameters
    ----------
    point : OperatingPoint
        Floats or arrays.
    name : str
        Field.
    kind : str
        Of quantity.

    Returns
    -------
    float or array
        In SI.
    """
    value = getattr(point, name)
    return value - point.pressure if kind == "gauge_pressure" else value


def value_and_unit(value: Any, kind: str) -> dict[str, Any]:
    """A number in the technician's unit.

    Parameters
    ----------
    value : float
        In SI.
    kind : str
        Of quantity.

    Returns
    -------
    dict
        ``value``, not rounded, and ``unit``.
    """
    return {"value": float(to_display(value, kind, "us")), "unit": show(float(value), kind).unit}
