"""From solved unknowns to everything an instrument can reach."""

from dataclasses import fields
from typing import Any

import numpy as np

from simulator.components import outdoor_coil, supply_circuit
from simulator.components.compressor import OVERLOAD_TEMPERATURE
from simulator.components.electric_strips import motor_current
from simulator.components.supply_circuit import added_current, takes_no_line
from simulator.plant import balance, standing
from simulator.plant.air_report import air_fields
from simulator.plant.balance import Evaluation
from simulator.plant.case import Case, Settled, high_limit
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
    done = outcome.worked_out or balance.evaluate(outcome.unknowns, case)
    count = outcome.unknowns.shape[1]
    state = state_words(case, done, outcome)
    running = running_values(case, done)
    is_running = state == "running"
    resting = running if is_running.all() else standing.values(case, blower_on=True)
    merged: dict[str, Any] = {"state": state, "mode": np.full(count, case.conditions.mode)}
    for field in fields(OperatingPoint):
        if field.name == "register_airflows":
            merged[field.name] = tuple(
                np.broadcast_to(np.asarray(part, dtype=float), count)
                for part in running[field.name]
            )
        elif field.name not in merged and resting is running:
            merged[field.name] = np.full(count, running[field.name], dtype=float)
        elif field.name not in merged:
            merged[field.name] = np.where(is_running, running[field.name], resting[field.name])
    # A pressure switch takes the contactor's 24 V; an overload sits in the motor.
    let_go = np.isin(state, ("high_pressure_trip", "low_pressure_trip"))
    merged["compressor_voltage"] = np.where(let_go, 0.0, merged["compressor_voltage"])
    return OperatingPoint(**merged)


def state_words(case: Case, done: Evaluation, outcome: Settled) -> Any:
    """Running, held off, tripped by a switch, or not solved.

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
    held_off = (
        unit.compressor.is_open
        + takes_no_line(
            unit.supply_circuit, case.conditions.voltage, unit.compressor.winding_insulation
        )
        + unit.float_switch_open
        + unit.leak_detector_open
        + (1.0 - np.asarray(case.conditions.compressor_call))
    )
    beyond = outcome.converged & np.asarray(done.circuit.discharge_pressure >= high_limit(case))
    high = outcome.high_head | beyond
    below = outcome.converged & np.asarray(done.circuit.suction_pressure <= unit.low_cut_out)
    low = outcome.low_suction | below
    # Also where nothing settles because the gas only gets hotter.
    hot = np.asarray(done.circuit.discharge_temperature >= OVERLOAD_TEMPERATURE)
    return np.select(
        [
            np.broadcast_to(np.asarray(held_off) > 0.5, outcome.converged.shape),
            high,
            low,
            hot,
            ~outcome.converged,
        ],
        [
            "compressor_off",
            "high_pressure_trip",
            "low_pressure_trip",
            "overload_trip",
            "no_solution",
        ],
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
        **_heat_fields(case, done),
        **_outdoor_fields(case, done),
        **air_fields(case, done.air),
    }


def _refrigerant_fields(case: Case, done: Evaluation) -> dict[str, Any]:
    now = done.circuit
    gauge_bubble = case.fluid.bubble_temperature(now.liquid_pressure)
    liquid_pipe = now.liquid.temperature
    if case.conditions.mode == "heating":
        # The port is at the far end of the line: what boils on the way is as cold as it boils.
        liquid_pipe = np.minimum(liquid_pipe, gauge_bubble)
    return {
        "suction_pressure": now.suction_pressure,
        "liquid_pressure": now.liquid_pressure,
        "vapour_port_pressure": now.vapour_port_pressure,
        "discharge_pressure": now.discharge_pressure,
        "evaporating_temperature": now.low.dew_temperature,
        "condensing_temperature": now.high.bubble_temperature,
        "evaporator_outlet_temperature": now.coil_outlet.temperature,
        "suction_line_temperature": now.suction.temperature,
        "vapour_line_temperature": now.vapour_port_temperature,
        "reversing_valve_rise": now.valve_rise,
        "discharge_temperature": now.discharge_temperature,
        "liquid_line_temperature": liquid_pipe,
        # A drier warms nothing; foreign gas would make it seem so, as it adds to the pressure only.
        "liquid_after_drier_temperature": np.minimum(now.valve_temperature, liquid_pipe),
        "superheat": np.maximum(now.suction.temperature - now.suction_dew, 0.0),
        "coil_superheat": now.coil_outlet.temperature - now.low.dew_temperature,
        "subcooling": gauge_bubble - liquid_pipe,
        "refrigerant_flow": now.flow,
        "refrigerant_charge": now.charge,
    }


def _heat_fields(case: Case, done: Evaluation) -> dict[str, Any]:
    now, air = done.circuit, done.air
    if case.conditions.mode == "heating":
        wet = np.maximum(now.evaporator_heat - now.sensible_heat, 0.0)
        gross, sensible, water = now.condenser_heat, now.condenser_heat, 0.0 * now.flow
        frost = wet / moist_air.EVAPORATION_AT_ZERO
    else:
        gross, sensible = now.evaporator_heat, np.minimum(now.sensible_heat, now.evaporator_heat)
        water = case.path.mass_flow * (air.entering.humidity_ratio - air.leaving.humidity_ratio)
        frost = 0.0 * now.flow
    return {
        "gross_capacity": gross,
        "evaporator_heat": now.evaporator_heat,
        "boiling_surface_temperature": now.low.dew_temperature + now.boiling_film,
        "sensible_capacity": sensible,
        "condensate_rate": water,
        "frost_rate": frost,
        "heat_rejected": now.condenser_heat,
        "suction_line_gain": now.line_gain,
        "vapour_line_loss": now.line_loss,
    }


def _outdoor_fields(case: Case, done: Evaluation) -> dict[str, Any]:
    now, unit, conditions = done.circuit, case.installation.unit, case.conditions
    coil, voltage = unit.outdoor_coil, conditions.voltage
    capacity = now.outdoor_air.mass_flow * now.outdoor_air.heat_capacity
    heating = conditions.mode == "heating"
    given = -np.minimum(now.sensible_heat, now.evaporator_heat) if heating else now.condenser_heat
    fan = outdoor_coil.fan_power(coil)
    compressor = unit.compressor
    factor = supply_circuit.worn_power_factor(compressor.power_factor, compressor.capacitor_share)
    resistance = unit.supply_circuit.contact_resistance
    behind = supply_circuit.loaded_voltage(voltage, resistance, now.compressor_power, factor)
    fan_current = motor_current(fan, behind, coil.fan_power_factor)
    current = motor_current(now.compressor_power, behind, factor)
    contact_loss = resistance * current**2
    return {
        "compressor_power": now.compressor_power,
        "compressor_shell_loss": now.shell_loss,
        "compressor_current": current,
        "compressor_power_factor": factor,
        "outdoor_fan_power": fan,
        "outdoor_fan_current": fan_current,
        "outdoor_power": now.compressor_power + fan + contact_loss,
        "outdoor_current": added_current(
            (now.compressor_power, current, behind), (fan, fan_current, behind)
        ),
        "outdoor_airflow": outdoor_coil.outdoor_airflow(coil),
        "outdoor_leaving_temperature": conditions.outdoor_temperature
        + (given + now.shell_loss + fan) / capacity,
        "compressor_voltage": behind,
        "contact_loss": contact_loss,
    }
