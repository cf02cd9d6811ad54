"""What cannot be true of a data sheet, each said in one sentence."""

from itertools import pairwise

import numpy as np

from simulator.plant.data_sheet import TON, BlowerTable, PublishedUnit
from simulator.plant.parameter_file import ParameterFileError, Table
from simulator.properties import refrigerant

# Bounds of single numbers in the unit of the row: wider than anything sold, narrow enough
# to catch a wrong unit or a slipped digit (common practice, no source).
BOUNDS = {
    "nominal_tons": (1.0, 6.0, "house units run from 1.5 to 5"),
    "eer": (6.0, 18.0, "at 95 °F real units lie between 7 and 16"),
    "mild_eer": (7.0, 24.0, "at 82 °F real units lie between 8 and 20"),
    "cop_47": (2.0, 6.0, "at 47 °F real heat pumps lie between 2.5 and 5"),
    "cop_17": (1.2, 4.5, "at 17 °F real heat pumps lie between 1.6 and 3.5"),
    "sensible_heat_ratio": (0.55, 0.95, "it is a share of the capacity, usually 0.68 to 0.82"),
    "external_static": (0.1, 1.0, "rated static is usually 0.3 to 0.7 in wc"),
    "power_factor": (0.4, 1.0, "it is watts over volt-amperes"),
    "superheat": (2.0, 35.0, "superheat at rating is usually 5 to 20"),
    "subcooling": (2.0, 25.0, "subcooling at rating is usually 6 to 16"),
    "strips": (0.0, 40.0, "house air handlers carry 0 to 25 kW"),
    "strip_voltage": (110.0, 260.0, "strips are made for 208 to 240 V"),
    "volumetric_efficiency": (0.85, 1.0, "it is a share of the swept flow"),
    "volumetric_slope": (0.0, 0.12, "flow falls a few hundredths per unit of pressure ratio"),
    "best_efficiency": (0.45, 0.80, "hermetic compressors reach 0.55 to 0.75 of ideal"),
    "best_pressure_ratio": (1.5, 4.5, "wraps are built for 2 to 3.5"),
    "efficiency_curvature": (0.05, 1.5, "it is usually 0.2 to 0.7"),
}


def within(table: Table, key: str, value: float) -> float:
    """A number inside its bounds.

    Parameters
    ----------
    table : Table
        For the message.
    key : str
        Of the row.
    value : float
        In the unit of the row. [-]

    Returns
    -------
    float
        The same. [-]

    Raises
    ------
    ParameterFileError
        If it is outside.
    """
    low, high, why = BOUNDS[key]
    if not low <= value <= high:
        raise ParameterFileError(
            f"{table.name}: {key} is {value:g} and must lie between {low:g} and {high:g}: {why}."
        )
    return value


def synchronous_speed(table: Table, poles: float) -> float:
    """Speed of the field of an induction motor at 60 Hz.

    Parameters
    ----------
    table : Table
        For the message.
    poles : float
        [-]

    Returns
    -------
    float
        [rad/s]

    Raises
    ------
    ParameterFileError
        For anything but 4, 6 or 8 poles.
    """
    if poles not in (4.0, 6.0, 8.0):
        raise ParameterFileError(
            f"{table.name}: a blower motor has 4, 6 or 8 poles, not {poles:g}."
        )
    return float(4.0 * np.pi * 60.0 / poles)


def complaint(unit: PublishedUnit) -> str:
    """The first thing that does not fit together.

    Parameters
    ----------
    unit : PublishedUnit
        As read.

    Returns
    -------
    str
        A sentence; empty if all is well.
    """
    for check in (_rated, _air, _table_of, _plate, _pressures, _charging):
        found = check(unit)
        if found:
            return found
    return ""


def _rated(unit: PublishedUnit) -> str:
    # How much of its nominal size a unit gives at each point (common practice, no source).
    shares = {"95": (0.75, 1.2), "82": (0.8, 1.35), "47": (0.6, 1.4), "17": (0.3, 1.1)}
    for point in unit.points:
        low, high = shares[point.name.split()[2]]
        share = point.capacity / (unit.tons * TON)
        if not low <= share <= high:
            return (
                f"the capacity for {point.name} is {share:.2f} of {unit.tons:g} tons, and real "
                f"units lie between {low:g} and {high:g}."
            )
    points = {point.name.split()[2]: point for point in unit.points}
    for worse, better in (("95", "82"), ("17", "47")):
        if better in points:
            if points[worse].capacity >= points[better].capacity:
                return f"capacity at {worse} °F must be lower than at {better} °F."
            if points[worse].efficiency >= points[better].efficiency:
                return f"efficiency at {worse} °F must be lower than at {better} °F."
    return ""


def _air(unit: PublishedUnit) -> str:
    cfm = unit.airflow / unit.tons * 2118.88
    if not 275.0 <= cfm <= 525.0:
        return f"the rated airflow is {cfm:.0f} cfm a ton, and it must lie between 275 and 525."
    if not 0.15 <= unit.fan_airflow / unit.tons <= 0.9:
        return (
            f"the outdoor fan moves {unit.fan_airflow / unit.tons * 2118.88:.0f} cfm a ton, and it "
            "must lie between 320 and 1900."
        )
    if not 15.0 <= unit.fan_power / unit.tons <= 160.0:
        return (
            f"the outdoor fan takes {unit.fan_power / unit.tons:.0f} W a ton, and it must lie "
            "between 15 and 160."
        )
    return ""


def _table_of(unit: PublishedUnit) -> str:
    table = unit.blower
    lengths = {len(table.external_static), len(table.airflow), len(table.power)}
    if len(lengths) > 1:
        return "the columns of the blower table are not of one length."
    if min(lengths) < 3 or max(lengths) > 40:
        return "the blower table needs between 3 and 40 rows."
    if min(table.external_static) < 0.0 or min(table.airflow) <= 0.0 or min(table.power) <= 0.0:
        return "the blower table must hold positive numbers."
    if any(after <= before for before, after in pairwise(table.external_static)):
        return "external static in the blower table must rise from row to row."
    slack = 1.01 if unit.motor == "constant_airflow" else 1.0
    if any(after > before * slack for before, after in pairwise(table.airflow)):
        return "airflow in the blower table rises with static, and no blower does that."
    if not table.external_static[0] <= unit.external_static <= table.external_static[-1]:
        return "the rated external static lies outside the blower table."
    return _table_as_stated(unit, table)


def _table_as_stated(unit: PublishedUnit, table: BlowerTable) -> str:
    found = float(np.interp(unit.external_static, table.external_static, table.airflow))
    if abs(found / unit.airflow - 1.0) > 0.1:
        return (
            f"the blower table gives {found * 2118.88:.0f} cfm at the rated static, and the rated "
            f"airflow is {unit.airflow * 2118.88:.0f} cfm."
        )
    for static, airflow, power in zip(
        table.external_static, table.airflow, table.power, strict=True
    ):
        if not 0.04 <= (static + 40.0) * airflow / power <= 0.75:
            return (
                f"a blower row of {airflow * 2118.88:.0f} cfm and {power:.0f} W has no efficiency "
                "any blower has."
            )
    falls = table.power[-1] < table.power[0]
    if unit.motor == "psc" and not falls:
        return "a psc blower takes less power as static rises, and this table says more."
    if unit.motor == "constant_airflow" and falls:
        return "a constant-airflow blower takes more power as static rises, and this table less."
    return ""


def _plate(unit: PublishedUnit) -> str:
    least = 1.25 * unit.rated_load_current + unit.fan_current
    if unit.rated_load_current <= 0.0 or unit.fan_current <= 0.0:
        return "currents on the plate must be positive."
    if not 0.97 * least <= unit.circuit_ampacity <= 1.25 * least:
        return (
            f"the circuit ampacity is {unit.circuit_ampacity:g} A and must be about 1.25 times "
            f"the compressor's rated load plus the fan, {least:.1f} A."
        )
    rated = unit.points[0]
    drawn = rated.capacity / rated.efficiency / 240.0
    if not 0.6 * drawn <= unit.rated_load_current <= 2.5 * drawn:
        return (
            f"a compressor's rated load of {unit.rated_load_current:g} A does not go with "
            f"{drawn * 240.0:.0f} W in all."
        )
    return ""


def _pressures(unit: PublishedUnit) -> str:
    fluid = refrigerant.load(unit.refrigerant)
    top = fluid.highest_pressure - 10.0 * 6894.757
    hot = float(fluid.bubble_pressure(325.0))  # 125 °F: a hot day's condensing
    if not hot <= unit.high_cut_out <= top:
        return (
            f"the high cut-out of {unit.refrigerant} must lie between {_gauge(hot):.0f} psig, "
            f"which a hot day needs, and {_gauge(top):.0f} psig, where the tables end, not at "
            f"{_gauge(unit.high_cut_out):.0f}."
        )
    cold, least = float(fluid.dew_pressure(266.5)), max(fluid.lowest_pressure * 1.05, 101325.0)
    if not least <= unit.low_cut_out <= cold:
        return (
            f"the low cut-out of {unit.refrigerant} must lie between {_gauge(least):.0f} and "
            f"{_gauge(cold):.0f} psig, not at {_gauge(unit.low_cut_out):.0f}."
        )
    return ""


def _gauge(pressure: float) -> float:
    return (pressure - 101325.0) / 6894.757


def _charging(unit: PublishedUnit) -> str:
    if unit.charge_rule == "superheat" and unit.metering[0] == "txv":
        return "a thermostatic valve holds its superheat, so its charge is set by subcooling."
    if unit.charge_rule == "subcooling" and unit.metering[0] == "orifice":
        return "with a fixed orifice the charge is set by superheat, not by subcooling."
    return ""
