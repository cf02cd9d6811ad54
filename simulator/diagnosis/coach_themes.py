"""What a coach asks about each reading, and how it is read; the same on every call.

Common practice, no source.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache


@dataclass(frozen=True, slots=True)
class Theme:
    """Readings that answer one question.

    Parameters
    ----------
    question : str
        Makes one look, and names neither place nor tool.
    reading : str
        How the answer is read.
    codes : tuple
        Of measurements.
    about : str
        What they tell of, inside a sentence; it names neither place nor tool either.
    """

    question: str
    reading: str
    codes: tuple[str, ...]
    about: str


THEMES = (
    Theme(
        "What does the customer know that no tool can show you?",
        "Write down dates, changes and names, and let what you measure confirm them.",
        ("ask_when", "ask_changed", "ask_touched", "ask_rooms"),
        "what people here know",
    ),
    Theme(
        "What is on paper about this house before today?",
        "Compare the same month of two years, and note what was done to the system and when.",
        ("read_bill", "read_history"),
        "what is on paper",
    ),
    Theme(
        "What does the system have to work against in these rooms today?",
        "It is no finding by itself: everything else is judged against it.",
        ("room_temperature", "room_humidity", "grille_dry_bulb", "grille_wet_bulb"),
        "the air of the rooms",
    ),
    Theme(
        "How does the system behave over a whole day, when nobody watches it?",
        "Set hours and starts against the weather of that day before you call them many or few.",
        ("run_time", "starts", "look_thermostat"),
        "how it behaves over a day",
    ),
    Theme(
        "Does the air reach the rooms as it left the unit, and all of it?",
        "What is lost on the way is the difference to the air handler, not the number itself.",
        (
            *("near_register_temperature", "far_register_temperature", "register_sum"),
            *("look_registers", "look_ducts", "smoke_supply", "zone_temperature"),
            "zone_humidity",
        ),
        "what reaches the rooms",
    ),
    Theme(
        "Is the air that comes back to the unit the air of the rooms?",
        "Compare both ends of the return: what differs has come in or been lost between them.",
        (
            *("return_dry_bulb", "return_wet_bulb", "return_zone_temperature"),
            *("return_zone_humidity", "smoke_return", "look_slot"),
            *("tracer_grille", "tracer_return", "tracer_zone"),
        ),
        "what comes back to the unit",
    ),
    Theme(
        "Where could the house lose air to outdoors, or draw it in, while the blower runs?",
        "Near zero both sides balance; a sign tells which side loses more than the other.",
        ("house_pressure", "duct_leakage"),
        "what the house loses or draws in",
    ),
    Theme(
        "Is as much air moving as this unit was built for?",
        "Judge the flow before anything of the circuit: too little or too much moves all the rest.",
        (
            *("coil_airflow", "table_airflow", "plate_airflow", "strip_rise_airflow"),
            *("blower_speed", "listen_blower"),
        ),
        "how much air moves",
    ),
    Theme(
        "If the air is held back, in which part of its way is it held back?",
        "One pressure says little: subtract neighbours, and the part that takes too much stands "
        "out.",
        (
            *("static_before_filter", "static_after_filter", "static_after_coil"),
            *("static_supply", "look_filter", "look_indoor_coil"),
            *("static_return_trunk", "static_supply_trunk"),
        ),
        "where the air is held back",
    ),
    Theme(
        "What has the unit made of the air that went through it?",
        "Set it against the return taken at the same minute, dry and wet.",
        ("supply_dry_bulb", "supply_wet_bulb", "condensate"),
        "what the unit makes of its air",
    ),
    Theme(
        "How well does the outdoor coil get rid of its heat, or find it?",
        "Set it against the outdoor air at the same minute; the difference counts.",
        (
            *("outdoor_temperature", "outdoor_leaving_temperature", "look_outdoor_coil"),
            *("look_frost", "look_defrost_pins", "test_defrost"),
        ),
        "how heat is given off or found outdoors",
    ),
    Theme(
        "What do the two pipes tell before any hose is on?",
        "A bare pipe temperature already parts full from starved and warm from cold.",
        (
            *("suction_line_temperature", "liquid_line_temperature", "discharge_temperature"),
            *("liquid_after_drier_temperature", "vapour_line_temperature"),
            *("reversing_valve_rise", "look_label"),
        ),
        "what bare pipes tell",
    ),
    Theme(
        "Is the air proven well enough for the circuit to be judged by its pressures?",
        "Turn it into superheat or subcooling with the pipe at the same port; alone it decides "
        "little.",
        ("suction_pressure", "liquid_pressure", "vapour_port_pressure", "standing_pressure"),
        "what pressures tell",
    ),
    Theme(
        "If anything has got out of the circuit, where would it have left its trace?",
        "A find is believed when bubbles show it too; no find in moving air says nothing.",
        ("leak_search",),
        "whether anything has got out",
    ),
    Theme(
        "Where does the power go, and is it as much as it should be?",
        "Set it against the plate and against today's weather; a number on one leg may hide the "
        "other.",
        (
            *("outdoor_current", "air_handler_current", "strip_current", "outdoor_power"),
            *("compressor_current", "strip_element_1_current", "strip_element_2_current"),
            "air_handler_power",
        ),
        "where the power goes",
    ),
    Theme(
        "Does full voltage arrive while the load is on?",
        "Only a reading under load shows a bad joint; at rest all look sound.",
        (
            *("voltage", "compressor_voltage", "contactor_drop", "look_wires", "run_capacitor"),
            *("winding_resistance", "winding_insulation", "leg_1_voltage", "leg_2_voltage"),
            "look_breakers",
        ),
        "what voltage arrives",
    ),
    Theme(
        "Is the system being asked for what it does?",
        "A call is there or not: follow it from the thermostat to where it ends.",
        (
            *("control_supply", "compressor_call", "fan_call", "valve_call", "auxiliary_call"),
            *("contactor_coil", "look_board", "look_control_wires", "test_valve"),
            "look_drain",
        ),
        "what the system is asked for",
    ),
)


@lru_cache(maxsize=1)
def themes() -> Mapping[str, Theme]:
    """The theme of each measurement.

    Returns
    -------
    dict
        By code.
    """
    return {code: theme for theme in THEMES for code in theme.codes}
