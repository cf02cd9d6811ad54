"""Wheel and motor of a blower from its printed table."""

from dataclasses import replace
from typing import NamedTuple

import numpy as np

from simulator.components import blower as fans
from simulator.components.air_resistance import coil_resistance
from simulator.components.blower import Blower
from simulator.plant.data_sheet import PublishedUnit
from simulator.quantities.values import Array

AIR = 1.2  # blower tables are for standard air [kg/m³]
HELD = 0.97  # a constant-airflow motor below this share of its most is at its limit [-]
HEADROOM = 1.2  # of torque, where the table does not show the limit [-]; chosen
DIAMETERS = np.linspace(0.8, 1.3, 51)  # tried, over the usual one [-]


class _Table(NamedTuple):
    static: Array
    airflow: Array
    power: Array
    rise: Array


def fitted(sheet: PublishedUnit, dry_coil_drop: float, usual_diameter: float) -> Blower:
    """The blower whose curve comes nearest to the table.

    The wheel's dimensionless curve is given; each row then tells speed and torque for a
    diameter, the rows together the motor's law, and the best diameter is kept.

    Parameters
    ----------
    sheet : PublishedUnit
        With the table.
    dry_coil_drop : float
        At rated airflow; the table is for a dry coil. [Pa]
    usual_diameter : float
        Where to look. [m]

    Returns
    -------
    Blower
        Healthy.
    """
    static, airflow, power = (
        np.asarray(column)
        for column in (
            sheet.blower.external_static,
            sheet.blower.airflow,
            sheet.blower.power,
        )
    )
    rise = static + coil_resistance(dry_coil_drop, sheet.airflow, AIR) * airflow**1.8
    table = _Table(static, airflow, power, rise)
    tried = [_at_diameter(sheet, table, usual_diameter * float(share)) for share in DIAMETERS]
    errors = [_error(one, table) for one in tried]
    return tried[int(np.argmin(errors))]


def against(blower: Blower, rise: Array, airflow: Array) -> tuple[Array, Array]:
    """Airflow and power on the systems that a table's rows stand for.

    Parameters
    ----------
    blower : Blower
        As fitted.
    rise : array
        Static of each row, coil included. [Pa]
    airflow : array
        Of each row. [m³/s]

    Returns
    -------
    tuple
        Airflow [m³/s] and power [W] where the blower meets each row's square law.
    """
    point = fans.run_against(blower, rise / airflow**2, 0.0, AIR)
    return np.asarray(point.airflow), np.asarray(point.power)


def _error(blower: Blower, table: _Table) -> float:
    airflow, power = against(blower, table.rise, table.airflow)
    off = np.concatenate([airflow / table.airflow - 1.0, power / table.power - 1.0])
    return float(np.sqrt(np.mean(off**2)))


def _at_diameter(sheet: PublishedUnit, table: _Table, diameter: float) -> Blower:
    speed = np.asarray(fans.wheel_speed(diameter, table.airflow, table.rise, AIR))
    coefficient = table.airflow / (speed * diameter**3)
    torque = np.asarray(fans.wheel_torque(diameter, coefficient, speed, AIR))
    blower = Blower(
        wheel_diameter=diameter,
        set_torque=0.0,
        set_airflow=0.0,
        slip_torque=0.0,
        synchronous_speed=sheet.synchronous_speed,
        torque_fraction=1.0,
        motor_efficiency=0.7,
        standby_power=10.0,
        power_factor=sheet.blower_power_factor,
    )
    if sheet.motor == "psc":
        # A wheel that would outrun its field fits badly, and so is passed over.
        slip = np.maximum(sheet.synchronous_speed - speed, 1.0)
        gained = float(np.exp(np.mean(np.log(torque / slip))))
        rotor = torque * sheet.synchronous_speed
        return _with_losses(replace(blower, slip_torque=gained), rotor, table.power)
    if sheet.motor == "constant_torque":
        blower = replace(blower, set_torque=float(torque.mean()))
        return _with_losses(blower, torque * speed, table.power)
    limited = table.airflow < HELD * table.airflow.max()
    most = float(torque[limited].mean()) if limited.any() else HEADROOM * float(torque.max())
    blower = replace(blower, set_torque=most, set_airflow=float(table.airflow[~limited].mean()))
    return _with_losses(blower, torque * speed, table.power)


def _with_losses(blower: Blower, shaft: Array, power: Array) -> Blower:
    """Efficiency and standing loss from power over shaft power, inside what motors have."""
    slope = float(np.polyfit(shaft, power, 1)[0])
    efficiency = float(np.clip(1.0 / max(slope, 0.1), 0.35, 0.88))
    left = float(np.mean(power - shaft / efficiency))
    if left < 0.0:
        efficiency = float(np.clip(np.mean(shaft) / np.mean(power), 0.2, 0.88))
    return replace(blower, motor_efficiency=efficiency, standby_power=max(left, 0.0))
