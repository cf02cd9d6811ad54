"""History, refrigerant measurements beside the usual ones, and looks at parts."""

from simulator.instruments import history_values, part_looks
from simulator.instruments import special_techniques as special
from simulator.instruments import techniques as how
from simulator.instruments.measurement import Measurement, Told, field, gauge
from simulator.instruments.outdoor_measurements import PRESSURE

OFF = "Power off and proven dead before hands go in."


def history() -> list[Measurement]:
    """What the thermostat has kept.

    Returns
    -------
    list
        In the order of the place's card.
    """
    return [
        Measurement(
            id="run_time",
            name="Run time in the last day",
            place="thermostat",
            tool_id="thermostat_hours",
            way="measure",
            minutes=3,
            group="house",
            fitted=history_values.run_time,
            techniques=special.WHOLE_DAY,
        ),
        Measurement(
            id="starts",
            name="Starts in the last day",
            place="thermostat",
            tool_id="thermostat_starts",
            way="measure",
            minutes=2,
            group="house",
            fitted=history_values.starts,
            techniques=special.WHOLE_DAY[:1],
        ),
    ]


def refrigerant() -> list[Measurement]:
    """Vapour line, reversing valve, standing pressure.

    Returns
    -------
    list
        In the order of the place's card.
    """
    gauges = ("connect_gauges",)
    return [
        Measurement(
            id="vapour_port_pressure",
            name="Pressure at the large pipe's port: hot gas while heating",
            place="outdoor_unit",
            tool_id="high_gauge",
            way="measure",
            minutes=2,
            group="high side",
            truth=gauge("vapour_port_pressure"),
            needs=gauges,
            techniques=special.VAPOUR_GAUGE,
            caution=PRESSURE,
        ),
        Measurement(
            id="vapour_line_temperature",
            name="Large pipe at the service valve",
            place="outdoor_unit",
            tool_id="pipe_clamp",
            way="measure",
            minutes=3,
            group="high side",
            truth=field("vapour_line_temperature"),
            techniques=how.INSULATED,
            caution="Hot pipe while heating.",
        ),
        Measurement(
            id="reversing_valve_rise",
            name="Rise of the suction gas across the reversing valve",
            place="outdoor_unit",
            tool_id="clamp_pair",
            way="measure",
            minutes=4,
            group="low side",
            truth=field("reversing_valve_rise"),
            techniques=special.SWAPPED,
            caution="The discharge stub beside it burns.",
        ),
        Measurement(
            id="standing_pressure",
            name="Standing pressure, everything off until the coils are as warm as the air",
            place="outdoor_unit",
            tool_id="standing_gauge",
            way="measure",
            minutes=4,
            group="high side",
            # While it runs, or soon after, the same probe shows what is there then.
            truth=gauge("liquid_pressure"),
            needs=gauges,
            techniques=special.SHADED,
            caution=PRESSURE,
        ),
    ]


LOOKED_AT: tuple[tuple[str, str, str, float, str, Told, str | None], ...] = (
    ("look_label", "Read the outdoor unit's label", "outdoor_unit", 1, "high side",
     part_looks.label, None),
    ("look_wires", "Look at wires, lugs, contacts and capacitor", "outdoor_unit", 3,
     "electrical", part_looks.wires, OFF),
    ("look_frost", "Look for frost on the outdoor coil", "outdoor_unit", 2, "low side",
     part_looks.frost, None),
    ("look_indoor_coil", "Look at the indoor coil's face with a mirror", "air_handler", 4,
     "air", part_looks.coil_face, OFF),
    ("look_registers", "Look at every register and branch damper", "registers", 4, "air",
     part_looks.registers, "Mind the ladder."),
    ("look_drain", "Look at the drain pan, its float and the trap", "air_handler", 2, "air",
     part_looks.drain, "Wet floor beside live parts."),
    ("look_breakers", "Look at the breakers' handles", "electrical_panel", 1, "electrical",
     part_looks.breakers,
     "A breaker that has tripped is not switched on again before its cause is found."),
    ("look_board", "Look at the control board's lamp", "air_handler", 1, "electrical",
     part_looks.board, "Live parts behind the panel."),
    ("look_control_wires", "Look at the low-voltage wires on the air handler's terminals",
     "air_handler", 3, "electrical", part_looks.control_wires, OFF),
    ("look_defrost_pins", "Read the interval set on the defrost board", "outdoor_unit", 3,
     "low side", part_looks.defrost_pins, OFF),
    ("test_defrost", "Bridge the defrost board's test pins", "outdoor_unit", 10, "low side",
     part_looks.defrost_test, "Steam, ice and a fan that restarts. Take the jumper off."),
    ("test_valve", "Take the reversing valve's call away and give it back", "outdoor_unit", 5,
     "low side", part_looks.valve_test, "A loud rush of gas; hot stubs."),
)  # fmt: skip
"""Key, name, place, minutes, group of the sheet, what is told, caution."""


def looks() -> list[Measurement]:
    """Parts looked at, searched and tried.

    Returns
    -------
    list
        In the order of the place's card.
    """
    found = [
        Measurement(
            id=key,
            name=name,
            place=place,
            tool_id="senses",
            way="look",
            minutes=minutes,
            group=group,
            told=told,
            techniques=how.JUMPER if key == "test_defrost" else how.PLAIN,
            caution=caution,
        )
        for key, name, place, minutes, group, told, caution in LOOKED_AT
    ]
    search = Measurement(
        id="leak_search",
        name="Leak detector and soap along all joints",
        place="outdoor_unit",
        tool_id="senses",
        way="look",
        minutes=20,
        group="high side",
        told=part_looks.leak_search,
        techniques=special.SEARCH,
        caution="Flammable refrigerants: a detector made for them, no flame, still air.",
    )
    return [*found, search]
