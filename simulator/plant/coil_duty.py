"""Which coil boils and which condenses, with the air that each meets."""

from typing import NamedTuple

from simulator.components import indoor_coil, outdoor_coil
from simulator.components.indoor_coil import CoilAir
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Unit
from simulator.properties import moist_air
from simulator.properties.refrigerant import Refrigerant, Saturation
from simulator.quantities.values import Values

# Of a closed coil's ice over that of the air film: a millimetre between clear ice and rime; chosen.
ICE_RESISTANCE = 0.2


class Duty(NamedTuple):
    """One coil at its present airflow.

    Parameters
    ----------
    air : CoilAir
        Entering.
    air_conductance : float
        Air side. [W/K]
    two_phase, vapour, liquid : float
        Refrigerant side at rated flow. [W/K]
    volume : float
        Refrigerant side. [m³]
    drop : float
        Of the refrigerant while condensing, at rated flow. [Pa]
    """

    air: CoilAir
    air_conductance: Values
    two_phase: Values
    vapour: Values
    liquid: Values
    volume: Values
    drop: Values


class Stream(NamedTuple):
    """The refrigerant in one coil, as the guess has it.

    Parameters
    ----------
    fluid : Refrigerant
        In the circuit.
    log_pressure : float
        Natural logarithm of absolute pressure over one pascal. [-]
    line : Saturation
        At that pressure.
    share : float
        Part of the coil behind the two-phase part: that superheats, or that is full of
        liquid; below zero, how far the outlet is from the saturation line in quality. [-]
    flow : float
        [kg/s]
    flow_ratio : float
        Over rated. [-]
    """

    fluid: Refrigerant
    log_pressure: Values
    line: Saturation
    share: Values
    flow: Values
    flow_ratio: Values


def outdoor_air(unit: Unit, conditions: Conditions) -> CoilAir:
    """Air entering the outdoor coil.

    Parameters
    ----------
    unit : Unit
        Its coil and fan.
    conditions : Conditions
        Weather.

    Returns
    -------
    CoilAir
    """
    temperature, humidity = conditions.outdoor_temperature, conditions.outdoor_humidity_ratio
    density = moist_air.density(temperature, humidity, conditions.pressure)
    return CoilAir(
        temperature=temperature,
        humidity_ratio=humidity,
        enthalpy=moist_air.enthalpy(temperature, humidity),
        mass_flow=outdoor_coil.outdoor_airflow(unit.outdoor_coil) * density,
        heat_capacity=moist_air.heat_capacity(humidity),
        pressure=conditions.pressure,
    )


def outdoors(unit: Unit, air: CoilAir, *, boiling: bool) -> Duty:
    """The outdoor coil at work.

    Parameters
    ----------
    unit : Unit
        Its coil.
    air : CoilAir
        Entering it.
    boiling : bool
        Heating: it boils. Cooling: it condenses.

    Returns
    -------
    Duty
    """
    coil = unit.outdoor_coil
    return Duty(
        air,
        outdoor_coil.air_conductance(coil),
        coil.boiling_conductance if boiling else coil.two_phase_conductance,
        coil.vapour_conductance,
        coil.liquid_conductance,
        coil.tube_volume,
        coil.pressure_drop,
    )


def indoors(unit: Unit, air: CoilAir, airflow_ratio: Values, *, boiling: bool) -> Duty:
    """The indoor coil at work.

    Parameters
    ----------
    unit : Unit
        Its coil.
    air : CoilAir
        Entering it.
    airflow_ratio : float
        Over rated. [-]
    boiling : bool
        Cooling: it boils. Heating: it condenses.

    Returns
    -------
    Duty
    """
    coil = unit.indoor_coil
    return Duty(
        air,
        (coil.air_conductance if boiling else coil.dry_conductance)
        # Air is faster in passages that ice narrows, on a surface as large as before.
        * (airflow_ratio / indoor_coil.free_passage(coil)) ** 0.5
        / (1.0 + ICE_RESISTANCE * coil.ice),
        coil.two_phase_conductance if boiling else coil.condensing_conductance,
        coil.vapour_conductance,
        coil.liquid_conductance,
        coil.tube_volume,
        coil.condensing_drop,
    )
