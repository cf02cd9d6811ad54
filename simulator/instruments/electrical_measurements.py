"""Controls, contacts, capacitor, windings and strips, each with a meter."""

from functools import partial

from simulator.instruments import line_techniques as line
from simulator.instruments import part_values as parts
from simulator.instruments import special_techniques as special
from simulator.instruments import techniques as how
from simulator.instruments.measurement import Measurement, field
from simulator.instruments.outdoor_measurements import LIVE
from simulator.plant.operating_point import OperatingPoint

FUSE = "24 V: a slipped probe blows the control fuse."
STORED = "Stored charge: discharge, then prove it dead. Licensed practice and local code apply."
METER = ("prove_meter",)
ISOLATED = ("prove_meter", "isolate_unit")


def while_off(point: OperatingPoint) -> str | None:
    """Why a part cannot be taken out of the circuit now.

    Parameters
    ----------
    point : OperatingPoint
        What the plant does.

    Returns
    -------
    str or None
        A sentence; none with everything off.
    """
    if point.state == "off":
        return None
    return "Not taken: the thermostat still calls. Switch the system off first."


def controls() -> list[Measurement]:
    """Which call is present, terminal by terminal.

    Returns
    -------
    list
        In the order of the place's card.
    """
    rows = (
        ("control_supply", "Volts R to C", "thermostat", parts.supply_of_controls),
        ("compressor_call", "Volts Y to C, compressor", "thermostat", parts.compressor_call),
        ("fan_call", "Volts G to C, blower", "thermostat", parts.fan_call),
        ("valve_call", "Volts O to C, reversing valve", "thermostat", parts.valve_call),
        ("auxiliary_call", "Volts W to C, strips", "thermostat", parts.auxiliary_call),
        (
            "contactor_coil",
            "Volts over the contactor's coil",
            "outdoor_unit",
            parts.contactor_coil,
        ),
    )
    return [
        Measurement(
            id=key,
            name=name,
            place=place,
            tool_id="volt_meter",
            way="measure",
            minutes=1,
            group="electrical",
            fitted=truth,
            needs=METER,
            techniques=line.STRIP_CALL if key == "auxiliary_call" else how.PLAIN,
            caution=FUSE,
        )
        for key, name, place, truth in rows
    ]


def supply() -> list[Measurement]:
    """Line voltage behind the contacts, and what the contacts take.

    Returns
    -------
    list
        In the order of the place's card.
    """
    return [
        Measurement(
            id="compressor_current",
            name="Amps of the compressor alone",
            place="outdoor_unit",
            tool_id="clamp_meter",
            way="measure",
            minutes=3,
            group="electrical",
            truth=field("compressor_current"),
            needs=METER,
            techniques=special.ONE_LEAD,
            caution=LIVE,
        ),
        Measurement(
            id="compressor_voltage",
            name="Volts behind the contactor",
            place="outdoor_unit",
            tool_id="volt_meter",
            way="measure",
            minutes=3,
            group="electrical",
            truth=field("compressor_voltage"),
            needs=METER,
            techniques=special.LOADED,
            caution=LIVE,
        ),
        Measurement(
            id="contactor_drop",
            name="Drop over the contactor, both poles added",
            place="outdoor_unit",
            tool_id="drop_meter",
            way="measure",
            minutes=3,
            group="electrical",
            fitted=parts.contact_drop,
            needs=METER,
            techniques=special.CLOSED,
            caution=LIVE,
        ),
    ]


def legs() -> list[Measurement]:
    """Voltage of each leg to ground, where the unit takes it.

    Returns
    -------
    list
        L1, then L2.
    """
    rows = (
        ("leg_1_voltage", "Volts L1 to ground, behind the contactor", 1),
        ("leg_2_voltage", "Volts L2 to ground, behind the contactor", 2),
    )
    return [
        Measurement(
            id=key,
            name=name,
            place="outdoor_unit",
            tool_id="volt_meter",
            way="measure",
            minutes=3,
            group="electrical",
            fitted=partial(parts.leg, number),
            needs=METER,
            techniques=special.LOADED_LEG,
            caution=LIVE,
        )
        for key, name, number in rows
    ]


def strips() -> list[Measurement]:
    """Amps of each strip element.

    Returns
    -------
    list
        In the order of the place's card.
    """
    return [
        Measurement(
            id=f"strip_element_{number}_current",
            name=f"Amps of strip element {number}",
            place="air_handler",
            tool_id="clamp_meter",
            way="measure",
            minutes=2,
            group="electrical",
            fitted=partial(parts.element_current, number),
            needs=METER,
            techniques=special.ONE_LEAD,
            caution=LIVE,
        )
        for number in (1, 2)
    ]


def isolated() -> list[Measurement]:
    """Parts out of the circuit.

    Returns
    -------
    list
        In the order of the place's card.
    """
    return [
        Measurement(
            id="run_capacitor",
            name="Capacitance of the run capacitor",
            place="outdoor_unit",
            tool_id="capacitance_meter",
            way="measure",
            minutes=5,
            group="electrical",
            fitted=parts.capacitance,
            unfit=while_off,
            needs=ISOLATED,
            techniques=special.LEADS_OFF,
            caution=STORED,
        ),
        Measurement(
            id="winding_resistance",
            name="Compressor winding, common to run",
            place="outdoor_unit",
            tool_id="ohm_meter",
            way="measure",
            minutes=6,
            group="electrical",
            fitted=parts.winding_resistance,
            unfit=while_off,
            needs=ISOLATED,
            techniques=special.COOLED,
            caution="Terminals under pressure can blow out: cover on before power returns. A hot "
            "overload reads open until the shell has cooled.",
        ),
    ]


def insulation() -> list[Measurement]:
    """From the windings to the shell.

    Returns
    -------
    list
        One, with the unit locked out.
    """
    return [
        Measurement(
            id="winding_insulation",
            name="Insulation of the compressor's windings to its shell",
            place="outdoor_unit",
            tool_id="insulation_tester",
            way="measure",
            minutes=6,
            group="electrical",
            fitted=parts.insulation,
            unfit=while_off,
            needs=ISOLATED,
            techniques=special.COOLED_SHELL,
            caution="Never on a compressor under vacuum, a scroll least of all: the test voltage "
            "arcs inside. Locked out and discharged, electronics disconnected; discharge it again "
            "after the test.",
        ),
    ]
