"""At the air handler: air, statics, eyes and smoke."""

from simulator.instruments import air_techniques as airy
from simulator.instruments import techniques as how
from simulator.instruments.measurement import Measurement, field, wet


def air_handler() -> list[Measurement]:
    """Air handler.

    Returns
    -------
    list
        In the order of the place's card.
    """
    holes = ("drill_test_holes",)
    air = [
        (
            "return_dry_bulb",
            "Return dry bulb at the air handler",
            "thermometer",
            field("air_handler_return_temperature"),
            airy.RETURN_DRY,
        ),
        (
            "return_wet_bulb",
            "Return wet bulb at the air handler",
            "psychrometer",
            wet("air_handler_return"),
            airy.RETURN_WET,
        ),
        (
            "supply_dry_bulb",
            "Supply dry bulb at the air handler",
            "thermometer",
            field("supply_plenum_temperature"),
            how.SHIELDED,
        ),
        (
            "supply_wet_bulb",
            "Supply wet bulb at the air handler",
            "psychrometer",
            wet("supply_plenum"),
            how.wick("supply_plenum_temperature")[:1],
        ),
    ]
    return [
        *(
            Measurement(
                id=key,
                name=name,
                place="air_handler",
                tool_id=tool,
                way="measure",
                minutes=3,
                group="air",
                truth=truth,
                needs=holes,
                techniques=ways,
            )
            for key, name, tool, truth, ways in air
        ),
        Measurement(
            id="coil_airflow",
            name="Airflow by traverse of the supply plenum",
            place="air_handler",
            tool_id="traverse",
            way="measure",
            minutes=12,
            group="air",
            truth=field("airflow"),
            needs=holes,
            techniques=airy.TRAVERSE,
        ),
        Measurement(
            id="condensate",
            name="Condensate in a pail",
            place="air_handler",
            tool_id="pail",
            way="measure",
            minutes=12,
            group="air",
            truth=field("condensate_rate"),
        ),
    ]


def statics() -> list[Measurement]:
    """Statics.

    Returns
    -------
    list
        In the order of the place's card.
    """
    statics = [
        ("static_before_filter", "Static before the filter"),
        ("static_after_filter", "Static after the filter, before the coil"),
        ("static_after_coil", "Static after the coil, before the blower"),
        ("static_supply", "Static in the supply plenum"),
    ]
    return [
        Measurement(
            id=key,
            name=name,
            place="air_handler",
            tool_id="manometer",
            way="measure",
            minutes=2,
            group="static",
            truth=field(key),
            needs=("drill_test_holes",),
            techniques=airy.TAP,
        )
        for key, name in statics
    ]


def air_handler_senses() -> list[Measurement]:
    """Air handler senses.

    Returns
    -------
    list
        In the order of the place's card.
    """
    rows = (
        ("look_filter", "Look at the filter", "look", 2),
        ("look_slot", "Look at the filter slot, panels and gaskets", "look", 2),
        ("smoke_return", "Smoke along the return, platform and panel joints", "feel", 5),
        ("listen_blower", "Look at the blower wheel and listen to the motor", "look", 4),
    )
    ways = {"look_filter": how.BACK_IN, "smoke_return": how.STILL_AIR}
    return [
        Measurement(
            id=key,
            name=name,
            place="air_handler",
            tool_id="senses",
            way=way,
            minutes=minutes,
            group="air",
            techniques=ways.get(key, how.PLAIN),
            caution="Blower off before hands go in." if way == "look" else None,
        )
        for key, name, way, minutes in rows
    ]
