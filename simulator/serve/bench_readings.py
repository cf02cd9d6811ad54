"""The test stand as a function: weather and faults in, exact readings and truth out."""

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from typing import Any

import numpy as np

from simulator.faults import _catalogue as faults
from simulator.plant import catalogue, sizing, steady
from simulator.plant.conditions import Conditions, from_wet_bulb
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.quantities.entered import BadEntry
from simulator.quantities.shown import from_display, show, to_display
from simulator.serve import house_day
from simulator.serve.given import need_faults, need_known, need_number, need_word

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
    "zone_temperature": ("zone_temperature", "temperature"),
    "return_zone_temperature": ("return_zone_temperature", "temperature"),
}
# Allowed settings, in the technician's units: lowest, highest, unit, plain name.
LIMITS: dict[str, tuple[float, float, str, str]] = {
    "outdoor": (55.0, 125.0, "°F", "the outdoor temperature"),
    "return_db": (60.0, 95.0, "°F", "the return dry bulb"),
    "return_wb": (45.0, 85.0, "°F", "the return wet bulb"),
    "airflow": (0.3, 1.4, "of rated", "the airflow"),
}
REFERENCE = from_wet_bulb(outdoor=308.15, return_temperature=299.817, return_wet_bulb=292.594)
# An induction motor cannot outrun its field: close to that speed no winding is strong enough.
MOST_AIRFLOW = {"constant_torque": 1.4, "psc": 1.1}
ZONES = ("attic", "crawl_space", "garage", "basement")
MOST_FAULTS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """What the stand is set to, in the technician's units.

    Parameters
    ----------
    mode : str
        ``cooling``.
    metering : str
        ``txv`` or ``orifice``.
    motor : str
        Of the blower, ``constant_torque`` or ``psc``.
    zone : str
        Around the ducts, one of ``ZONES``.
    outdoor, return_db, return_wb : float
        In °F, the last two held at the return grille.
    airflow : float
        Of rated, for healthy ducts. [-]
    faults : mapping
        Severity by fault name, each in the fault's own unit.
    """

    mode: str = "cooling"
    metering: str = "txv"
    motor: str = "constant_torque"
    zone: str = "attic"
    outdoor: float = 95.0
    return_db: float = 80.0
    return_wb: float = 67.0
    airflow: float = 1.0
    faults: Mapping[str, float] = field(default_factory=dict)


def checked(setting: Setting) -> Setting:
    """The same setting, or one sentence on what is wrong with it.

    Parameters
    ----------
    setting : Setting
        As asked for.

    Returns
    -------
    Setting
        Unchanged.

    Raises
    ------
    BadEntry
        Naming what was wrong and what is allowed.
    """
    need_word(setting.mode, "the mode", ("cooling",))
    need_word(setting.metering, "the metering device", catalogue.METERING)
    need_word(setting.motor, "the motor", catalogue.MOTORS)
    need_word(setting.zone, "the zone", ZONES)
    for key, (low, high, unit, name) in LIMITS.items():
        most = MOST_AIRFLOW[setting.motor] if key == "airflow" else high
        need_number(getattr(setting, key), name, (low, min(high, most)), unit)
    if setting.return_wb > setting.return_db:
        raise BadEntry(
            f"The return wet bulb ({setting.return_wb:g} °F) cannot be above the return dry "
            f"bulb ({setting.return_db:g} °F)."
        )
    conditions = conditions_of(setting)
    if float(np.asarray(conditions.indoor_humidity_ratio)) <= 0.0:
        raise BadEntry(
            f"Air of {setting.return_db:g} °F cannot have a wet bulb as low as "
            f"{setting.return_wb:g} °F."
        )
    need_faults(setting.faults, MOST_FAULTS)
    return setting


def conditions_of(setting: Setting) -> Conditions:
    """Weather and rooms of a setting.

    Parameters
    ----------
    setting : Setting
        In the technician's units.

    Returns
    -------
    Conditions
        In SI.
    """
    return from_wet_bulb(
        outdoor=float(from_display(setting.outdoor, "temperature", "us")),
        return_temperature=float(from_display(setting.return_db, "temperature", "us")),
        return_wet_bulb=float(from_display(setting.return_wb, "temperature", "us")),
    )


def installation_of(setting: Setting) -> Installation:
    """The reference installation with the setting's airflow and faults.

    Parameters
    ----------
    setting : Setting
        Checked.

    Returns
    -------
    Installation
        Floats.
    """
    installation = healthy_installation(setting)
    for name, amount in setting.faults.items():
        installation = faults.named(name, amount).applied_to(installation)
    return installation


def healthy_installation(setting: Setting) -> Installation:
    """The reference installation with the setting's airflow and no fault.

    Parameters
    ----------
    setting : Setting
        Checked.

    Returns
    -------
    Installation
        Floats.
    """
    installation = catalogue.load_installation(
        metering=setting.metering, motor=setting.motor, zone=setting.zone
    )
    return sizing.at_airflow(installation, REFERENCE, setting.airflow)


def readings(**asked: Any) -> dict[str, Any]:
    """Exact readings and truth of the reference installation.

    Parameters
    ----------
    **asked
        As ``Setting``: mode, metering, motor, zone, outdoor, return_db, return_wb (°F),
        airflow (of rated), faults (severity by name).

    Returns
    -------
    dict
        ``state``, ``readings`` and ``truth``; the last two hold value and unit by name.

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
    setting = checked(Setting(**asked))
    table = as_table(solved(setting))
    table["truth"] |= house_day.truth(installation_of(setting), conditions_of(setting))
    return table


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


def as_table(point: OperatingPoint) -> dict[str, Any]:
    """An operating point in the technician's units.

    Parameters
    ----------
    point : OperatingPoint
        Floats.

    Returns
    -------
    dict
        As ``readings``.
    """
    shown = {name: entry(point, *source) for name, source in READINGS.items()}
    truth = {name: entry(point, *source) for name, source in TRUTH.items()}
    split = point.air_handler_return_temperature - point.supply_plenum_temperature
    shown["temperature_split"] = value_and_unit(split, "temperature_difference")
    capacity, power = point.gross_capacity, point.outdoor_power
    truth["cop"] = value_and_unit(capacity / power if power else 0.0, "ratio")
    sensible = point.sensible_capacity / capacity if capacity else 0.0
    truth["sensible_heat_ratio"] = value_and_unit(sensible, "ratio")
    return {"state": point.state, "readings": shown, "truth": truth}


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
    value = getattr(point, name)
    if kind == "gauge_pressure":
        value = value - point.pressure
    return value_and_unit(value, kind)


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
