"""Forward-curved indoor blower with its motor's own law."""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from simulator.quantities.values import Values

# Shape of a forward-curved wheel in dimensionless form: pressure falls with the square of
# flow, torque rises with flow. ASHRAE Handbook, HVAC Systems and Equipment, Fans (shape);
# numbers are common practice, no source.
SHUT_OFF_PRESSURE = 0.36
PRESSURE_CURVATURE = 1.197
IDLE_TORQUE = 0.03
TORQUE_SLOPE = 0.364
# What electronic motors are held to against shut dampers or ice, from memory, no source:
# 1,500 rpm [rad/s] and the rim of a ten-inch wheel there [m/s]. Induction motors have their field.
TOP_SPEED = 157.0
RIM_SPEED = 20.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Blower:
    """What the blower and its motor are.

    Torque is ``set_torque + slip_torque * (synchronous_speed - speed)``: a
    constant-torque motor has no slip term, an induction motor no set term. A
    constant-airflow motor turns as fast as its airflow needs, as long as that asks for no
    more than ``set_torque``. Neither of the two passes its top speed.

    Parameters
    ----------
    wheel_diameter : float
        [m]
    set_torque : float
        Held by the motor's electronics; the most that a constant-airflow motor gives. [N m]
    set_airflow : float
        Held by a constant-airflow motor; 0 for every other. [m³/s]
    slip_torque : float
        Gained per unit of slip. [N m s]
    synchronous_speed : float
        Of an induction motor. [rad/s]
    torque_fraction : float
        What is left of the motor's torque. [-]
    motor_efficiency : float
        Shaft power over electrical, or rotor input over electrical for an induction motor. [-]
    standby_power : float
        Electrical, whatever the load. [W]
    power_factor : float
        Of the motor. [-]
    """

    wheel_diameter: Values
    set_torque: Values
    set_airflow: Values
    slip_torque: Values
    synchronous_speed: Values
    torque_fraction: Values
    motor_efficiency: Values
    standby_power: Values
    power_factor: Values


class BlowerPoint(NamedTuple):
    """Where a blower runs: flow [m³/s], pressure rise [Pa], speed [rad/s], power [W]."""

    airflow: Values
    pressure_rise: Values
    speed: Values
    power: Values


def run_against(
    blower: Blower, square_resistance: Values, coil_resistance: Values, density: Values
) -> BlowerPoint:
    """Where the blower curve meets the ducts.

    Against a pure square law the wheel's working point does not depend on its speed; the
    wet coil's 1.8 power makes it a fixed point that settles in a few rounds.

    Parameters
    ----------
    blower : Blower
        The blower.
    square_resistance : float
        Pressure over flow squared of everything but the coil. [Pa s²/m⁶]
    coil_resistance : float
        Coil pressure drop over flow to the power 1.8. [Pa (s/m³)^1.8]
    density : float
        Of the air at the wheel. [kg/m³]

    Returns
    -------
    BlowerPoint
        Settled to rounding error.

    References
    ----------
    .. [1] Fan laws, AMCA 201 and ASHRAE Handbook, Fans.
    """
    size = blower.wheel_diameter
    flow = np.asarray(0.5, dtype=float)
    for _ in range(14):
        resistance = square_resistance + coil_resistance * flow**-0.2
        coefficient = np.sqrt(
            SHUT_OFF_PRESSURE / (PRESSURE_CURVATURE + resistance * size**4 / density)
        )
        speed = _speed(blower, coefficient, density)
        flow = coefficient * speed * size**3
    rise = square_resistance * flow**2 + coil_resistance * flow**1.8
    point = BlowerPoint(flow, rise, speed, 0.0)
    return point._replace(power=_power(blower, point, density))


def wheel_torque(diameter: Values, coefficient: Values, speed: Values, density: Values) -> Values:
    """Torque that a wheel takes.

    Parameters
    ----------
    diameter : float
        [m]
    coefficient : float
        Flow over speed and the cube of the diameter. [-]
    speed : float
        [rad/s]
    density : float
        Of the air. [kg/m³]

    Returns
    -------
    float
        [N m]
    """
    return (IDLE_TORQUE + TORQUE_SLOPE * coefficient) * density * diameter**5 * speed**2


def wheel_speed(
    diameter: Values, airflow: Values, pressure_rise: Values, density: Values
) -> Values:
    """Speed at which a wheel gives this flow and pressure.

    Parameters
    ----------
    diameter : float
        [m]
    airflow : float
        [m³/s]
    pressure_rise : float
        [Pa]
    density : float
        Of the air. [kg/m³]

    Returns
    -------
    float
        [rad/s]
    """
    drawn = PRESSURE_CURVATURE * (airflow / diameter**2) ** 2
    return np.sqrt((pressure_rise / density + drawn) / SHUT_OFF_PRESSURE) / diameter


def _speed(blower: Blower, coefficient: Values, density: Values) -> Values:
    """Speed at which motor torque equals wheel torque, or airflow is as set, or the top one."""
    wheel = wheel_torque(blower.wheel_diameter, coefficient, 1.0, density)
    slip = blower.torque_fraction * blower.slip_torque
    standing = blower.torque_fraction * (
        blower.set_torque + blower.slip_torque * blower.synchronous_speed
    )
    full = (-slip + np.sqrt(slip**2 + 4.0 * wheel * standing)) / (2.0 * wheel)
    holding = blower.set_airflow / (coefficient * blower.wheel_diameter**3)
    free = np.where(np.asarray(blower.set_airflow) > 0.0, np.minimum(holding, full), full)
    top = np.minimum(TOP_SPEED, 2.0 * RIM_SPEED / blower.wheel_diameter)
    return np.where(np.asarray(blower.set_torque) > 0.0, np.minimum(free, top), free)


def _power(blower: Blower, point: BlowerPoint, density: Values) -> Values:
    """Electrical power; an induction rotor takes torque times synchronous speed."""
    speed = point.speed
    # Holding its airflow or its top speed, the motor gives what the wheel takes and no more.
    airflow = point.airflow / (speed * blower.wheel_diameter**3)
    taken = wheel_torque(blower.wheel_diameter, airflow, speed, density)
    given = blower.torque_fraction * blower.set_torque
    held = np.minimum(taken, given) * speed
    slip = blower.torque_fraction * blower.slip_torque * (blower.synchronous_speed - speed)
    rotor = held + np.maximum(slip, 0.0) * blower.synchronous_speed
    return blower.standby_power + rotor / blower.motor_efficiency
