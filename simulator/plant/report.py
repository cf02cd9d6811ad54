"""From solved unknowns to everything an instrument can reach."""

from dataclasses import fields
from typing import Any

import numpy as np

from simulator.components import outdoor_coil
from simulator.components.electric_strips import motor_current
from simulator.plant import balance, standing
from simulator.plant.air_report import air_fields
from simulator.plant.balance import Evaluation
from simulator.plant.case import Case, Settled
from simulator.plant.operating_point import OperatingPoint
from simulator.properties import moist_air


def operating_point(case: Case, outcome: Settled) -> OperatingPoint:
    """Assemble an operating point and name its state.

    Parameters
    ----------
    case : Case
        What was held.
    outcome : Settled
        The seven unknowns.

    Returns
    -------
    OperatingPoint
        Arrays of shape (n,).
    """
    done = balance.evaluate(outcome.unknowns, case)
    count = outcome.unknowns.shape[1]
    state = state_words(case, done, outcome)
    running = running_values(case, done)
    resting = standing.values(case, blower_on=True)
    is_running = state == "running"
    merged: dict[str, Any] = {}
    for field in fields(OperatingPoint):
        if field.name == "state":
            merged["state"] = state
        elif field.name == "register_airflows":
            merged[field.name] = tuple(
                np.broadcast_to(np.asarray(part, dtype=float), count)
                for part in running[field.name]
            )
        else:
            merged[field.name] = np.where(is_running, running[field.name], resting[field.name])
    return OperatingPoint(**merged)


def state_words(case: Case, done: Evaluation, outcome: Settled) -> Any:
    """Running, tripped by a switch, or not solved.

    Parameters
    ----------
    case : Case
        Holds the switch settings.
    done : Evaluation
        At the last guess.
    outcome : Settled
        Tells which columns converged.

    Returns
    -------
    array
        Of words, shape (n,).
    """
    unit = case.installation.unit
    beyond = outcome.converged & np.asarray(done.circuit.discharge_pressure >= unit.high_cut_out)
    high = outcome.high_head | beyond
    low = outcome.converged & np.asarray(done.circuit.suction_pressure <= unit.low_cut_out)
    return np.select(
        [high, low, ~outcome.converged],
        ["high_pressure_trip", "low_pressure_trip", "no_solution"],
        "running",
    )


def running_values(case: Case, done: Evaluation) -> dict[str, Any]:
    """All fields of a running installation.

    Parameters
    ----------
    case : Case
        What was held.
    done : Evaluation
        The solution worked out; columns that did not balance hold guesses.

    Returns
    -------
    dict
        By field name.
    """
    return {
        **_refrigerant_fields(case, done),
        **_outdoor_fields(case, done),
        **air_fields(case, done.air),
    }


def _refrigerant_fields(case: Case, done: Evaluation) -> dict[str, Any]:
    now = done.circuit
    gauge_bubble = case.fluid.bubble_temperature(now.liquid_pressure)
    return {
        "suction_pressure": now.suction_pressure,
        "liquid_pressure": now.liquid_pressure,
        "discharge_pressure": now.discharge_pressure,
        "evaporating_temperature": now.low.dew_temperature,
        "condensing_temperature": now.high.bubble_temperature,
        "evaporator_outlet_temperature": now.coil_outlet.temperature,
        "suction_line_temperature": now.suction.temperature,
        "discharge_temperature": now.discharge_temperature,
        "liquid_line_temperature": now.liquid.temperature,
        "liquid_after_drier_temperature": now.valve_temperature,
        "superheat": np.maximum(now.suction.temperature - now.suction_dew, 0.0),
        "coil_superheat": now.coil_outlet.temperature - now.low.dew_temperature,
        "subcooling": gauge_bubble - now.liquid.temperature,
        "refrigerant_flow": now.flow,
        "refrigerant_charge": now.charge,
        "gross_capacity": now.evaporator_heat,
        "sensible_capacity": np.minimum(now.sensible_heat, now.evaporator_heat),
        "condensate_rate": case.path.mass_flow
        * (done.air.entering.humidity_ratio - done.air.leaving.humidity_ratio),
        "heat_rejected": now.flow * (now.discharge_enthalpy - now.liquid.enthalpy),
        "suction_line_gain": now.line_gain,
    }


def _outdoor_fields(case: Case, done: Evaluation) -> dict[str, Any]:
    now, unit, conditions = done.circuit, case.installation.unit, case.conditions
    coil = unit.outdoor_coil
    airflow = outdoor_coil.outdoor_airflow(coil)
    density = moist_air.density(
        conditions.outdoor_temperature, conditions.outdoor_humidity_ratio, conditions.pressure
    )
    capacity = airflow * density * moist_air.heat_capacity(conditions.outdoor_humidity_ratio)
    rejected = now.flow * (now.discharge_enthalpy - now.liquid.enthalpy)
    fan = outdoor_coil.fan_power(coil)
    fan_current = motor_current(fan, conditions.voltage, coil.fan_power_factor)
    compressor = unit.compressor
    current = motor_current(now.compressor_power, conditions.voltage, compressor.power_factor)
    return {
        "compressor_power": now.compressor_power,
        "compressor_shell_loss": now.shell_loss,
        "compressor_current": current,
        "compressor_power_factor": compressor.power_factor,
        "outdoor_fan_power": fan,
        "outdoor_fan_current": fan_current,
        "outdoor_power": now.compressor_power + fan,
        "outdoor_current": current + fan_current,
        "outdoor_airflow": airflow,
        "outdoor_leaving_temperature": conditions.outdoor_temperature
        + (rejected + now.shell_loss + fan) / capacity,
    }
