"""With the customer, in the rooms and in the space around the ducts."""

from simulator.instruments import air_techniques as airy
from simulator.instruments import techniques as how
from simulator.instruments.measurement import Measurement, Truth, damp, field, wet

LADDER = "Mind the ladder."


def customer() -> list[Measurement]:
    """Customer.

    Returns
    -------
    list
        In the order of the place's card.
    """
    rows = (
        ("ask_when", "Ask when it started, and at what time of day", 2),
        ("ask_changed", "Ask what changed before it started", 2),
        ("ask_touched", "Ask who touched the system last, and what was done", 2),
        ("ask_rooms", "Ask which rooms, and what they feel like", 2),
        ("read_bill", "Read the bills of this year and last", 4),
        ("read_history", "Read the job history", 3),
    )
    return [
        Measurement(
            id=key,
            name=name,
            place="customer",
            tool_id="senses",
            way="ask",
            minutes=minutes,
            group="house",
            techniques=how.OPEN_QUESTION if key.startswith("ask_") else how.PLAIN,
        )
        for key, name, minutes in rows
    ]


def rooms() -> list[Measurement]:
    """Rooms.

    Returns
    -------
    list
        In the order of the place's card.
    """
    return [
        Measurement(
            id="room_temperature",
            name="Room temperature",
            place="thermostat",
            tool_id="thermometer",
            way="measure",
            minutes=3,
            group="house",
            truth=field("grille_temperature"),
            techniques=how.SOAKED,
        ),
        Measurement(
            id="room_humidity",
            name="Room humidity",
            place="thermostat",
            tool_id="hygrometer",
            way="measure",
            minutes=3,
            group="house",
            truth=damp("grille"),
        ),
        Measurement(
            id="look_thermostat",
            name="Look at mode, setpoint and fan setting",
            place="thermostat",
            tool_id="senses",
            way="look",
            minutes=2,
            group="house",
        ),
        Measurement(
            id="grille_dry_bulb",
            name="Return dry bulb at the grille",
            place="return_grille",
            tool_id="thermometer",
            way="measure",
            minutes=3,
            group="air",
            truth=field("grille_temperature"),
        ),
        Measurement(
            id="grille_wet_bulb",
            name="Return wet bulb at the grille",
            place="return_grille",
            tool_id="psychrometer",
            way="measure",
            minutes=3,
            group="air",
            truth=wet("grille"),
            techniques=how.wick("grille_temperature"),
        ),
        Measurement(
            id="house_pressure",
            name="House pressure against outdoors, blower on",
            place="return_grille",
            tool_id="house_manometer",
            way="measure",
            minutes=6,
            group="house",
            truth=field("house_pressure"),
            techniques=airy.HOUSE_PRESSURE,
            caution="Negative pressure can pull exhaust out of fuel-fired appliances: if in "
            "doubt stop, ventilate and refer.",
        ),
    ]


def registers() -> list[Measurement]:
    """Registers.

    Returns
    -------
    list
        In the order of the place's card.
    """
    return [
        Measurement(
            id="near_register_temperature",
            name="Nearest register",
            place="registers",
            tool_id="thermometer",
            way="measure",
            minutes=3,
            group="air",
            truth=field("near_register_temperature"),
            techniques=airy.IN_STREAM,
            caution=LADDER,
        ),
        Measurement(
            id="far_register_temperature",
            name="Farthest register",
            place="registers",
            tool_id="thermometer",
            way="measure",
            minutes=4,
            group="air",
            truth=field("far_register_temperature"),
            techniques=airy.IN_STREAM,
            caution=LADDER,
        ),
        Measurement(
            id="register_sum",
            name="Flow of all registers, added up",
            place="registers",
            tool_id="flow_hood",
            way="measure",
            minutes=18,
            group="air",
            truth=field("register_airflow"),
            techniques=how.HOOD,
            caution=LADDER,
        ),
    ]


def zone_air() -> list[Measurement]:
    """Air around supply ducts and return.

    Returns
    -------
    list
        Supply side, then return side.
    """
    air, moist = "thermometer", "hygrometer"
    warm, damp_at = airy.ZONE_TEMPERATURE, airy.ZONE_HUMIDITY
    rows = (
        ("zone_temperature", "Air temperature around the supply ducts", air, field, warm),
        ("zone_humidity", "Humidity around the supply ducts", moist, _moisture, damp_at),
        ("return_zone_temperature", "Air temperature around the return", air, field, how.PLAIN),
        ("return_zone_humidity", "Humidity around the return", moist, _moisture, how.PLAIN),
    )
    return [
        Measurement(
            id=key,
            name=name,
            place="air_handler" if key.startswith("return") else "zone",
            tool_id=tool,
            way="measure",
            minutes=3,
            group="house",
            truth=truth(key),
            needs=() if key.startswith("return") else ("hazard_look_zone",),
            techniques=ways,
        )
        for key, name, tool, truth, ways in rows
    ]


def _moisture(key: str) -> Truth:
    """Relative humidity by the name of its measurement."""
    return damp(key.removesuffix("_humidity"))


def zone() -> list[Measurement]:
    """Zone.

    Returns
    -------
    list
        In the order of the place's card.
    """
    needs = ("hazard_look_zone",)
    return [
        Measurement(
            id="look_ducts",
            name="Look along the supply ducts",
            place="zone",
            tool_id="senses",
            way="look",
            minutes=6,
            group="air",
            needs=needs,
        ),
        Measurement(
            id="smoke_supply",
            name="Hand and smoke along the supply joints",
            place="zone",
            tool_id="senses",
            way="feel",
            minutes=6,
            group="air",
            needs=needs,
            techniques=how.STILL_AIR,
        ),
    ]
