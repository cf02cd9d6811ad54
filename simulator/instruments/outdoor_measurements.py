"""At the outdoor unit and the electrical panel."""

from simulator.instruments import line_techniques as line
from simulator.instruments import special_techniques as special
from simulator.instruments import techniques as how
from simulator.instruments.measurement import Measurement, field, gauge

LIVE = "Live parts: protective gear, meter proven. Licensed practice and local code apply."
PRESSURE = "Refrigerant under pressure: goggles and gloves; certified people only."


def outdoor_air() -> list[Measurement]:
    """Outdoor air.

    Returns
    -------
    list
        In the order of the place's card.
    """
    return [
        Measurement(
            id="outdoor_temperature",
            name="Outdoor dry bulb",
            place="outdoor_unit",
            tool_id="thermometer",
            way="measure",
            minutes=2,
            group="house",
            truth=field("outdoor_temperature"),
            techniques=how.SHADE,
        ),
        Measurement(
            id="outdoor_leaving_temperature",
            name="Air leaving the outdoor fan",
            place="outdoor_unit",
            tool_id="thermometer",
            way="measure",
            minutes=3,
            group="high side",
            truth=field("outdoor_leaving_temperature"),
            techniques=how.OVER_FAN,
            caution="Moving fan: sleeves, hair and probe stay clear of the guard.",
        ),
        Measurement(
            id="look_outdoor_coil",
            name="Look at the outdoor coil, its fan and its clearance",
            place="outdoor_unit",
            tool_id="senses",
            way="look",
            minutes=3,
            group="high side",
        ),
    ]


def outdoor_pipes() -> list[Measurement]:
    """Outdoor pipes.

    Returns
    -------
    list
        In the order of the place's card.
    """
    clamps = (
        ("suction_line_temperature", "Suction line at the service valve", "low side"),
        ("liquid_line_temperature", "Liquid line at the service valve", "high side"),
        ("discharge_temperature", "Discharge line", "high side"),
    )
    gauges = ("connect_gauges",)
    return [
        *(
            Measurement(
                id=key,
                name=name,
                place="outdoor_unit",
                tool_id="pipe_clamp",
                way="measure",
                minutes=3,
                group=group,
                truth=field(key),
                techniques=how.INSULATED,
                caution="Hot pipe." if group == "high side" else None,
            )
            for key, name, group in clamps
        ),
        Measurement(
            id="liquid_after_drier_temperature",
            name="Liquid line after the drier, indoors",
            place="air_handler",
            tool_id="pipe_clamp",
            way="measure",
            minutes=3,
            group="high side",
            truth=field("liquid_after_drier_temperature"),
            techniques=how.INSULATED[:1],
        ),
        Measurement(
            id="suction_pressure",
            name="Suction pressure",
            place="outdoor_unit",
            tool_id="low_gauge",
            way="measure",
            minutes=2,
            group="low side",
            truth=gauge("suction_pressure"),
            needs=gauges,
            techniques=special.SUCTION_GAUGE,
            caution=PRESSURE,
        ),
        Measurement(
            id="liquid_pressure",
            name="Liquid pressure",
            place="outdoor_unit",
            tool_id="high_gauge",
            way="measure",
            minutes=2,
            group="high side",
            truth=gauge("liquid_pressure"),
            needs=gauges,
            techniques=special.LIQUID_GAUGE,
            caution=PRESSURE,
        ),
    ]


def electrical() -> list[Measurement]:
    """Electrical.

    Returns
    -------
    list
        In the order of the place's card.
    """
    meter = ("prove_meter",)
    rows = (
        ("outdoor_current", "Amps of the outdoor unit", "clamp_meter", how.PLAIN),
        ("air_handler_current", "Amps of the air handler", "clamp_meter", line.AIR_HANDLER_AMPS),
        ("strip_current", "Amps of the electric strips", "clamp_meter", how.PLAIN),
        ("voltage", "Volts at the panel", "volt_meter", line.PANEL_VOLTS),
    )
    return [
        *(
            Measurement(
                id=key,
                name=name,
                place="electrical_panel",
                tool_id=tool,
                way="measure",
                minutes=3,
                group="electrical",
                truth=field(key),
                needs=meter,
                techniques=ways,
                caution=LIVE,
            )
            for key, name, tool, ways in rows
        ),
    ]


def watts() -> list[Measurement]:
    """Power of each of the two units.

    Returns
    -------
    list
        Outdoor unit, then air handler.
    """
    rows = (
        ("outdoor_power", "Watts of the outdoor unit", how.WATTS),
        ("air_handler_power", "Watts of the air handler", special.BLOWER_WATTS),
    )
    return [
        Measurement(
            id=key,
            name=name,
            place="electrical_panel",
            tool_id="power_meter",
            way="measure",
            minutes=4,
            group="electrical",
            truth=field(key),
            needs=("prove_meter",),
            techniques=ways,
            caution=LIVE,
        )
        for key, name, ways in rows
    ]
