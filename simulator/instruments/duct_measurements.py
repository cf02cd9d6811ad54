"""Airflow by other ways than a traverse, the holes of the ducts, and tracer gas."""

from simulator.instruments import duct_values as ducts
from simulator.instruments import special_techniques as special
from simulator.instruments.electrical_measurements import while_off
from simulator.instruments.measurement import Measurement, field
from simulator.instruments.outdoor_measurements import LIVE

BACK = ("drill_return_trunk",)
OUT = ("hazard_look_zone", "drill_supply_trunk")
HANDS = "Blower off before hands go in."


def airflow() -> list[Measurement]:
    """Airflow by table, plate and strips; the wheel's speed.

    Returns
    -------
    list
        In the order of the place's card.
    """
    return [
        Measurement(
            id="table_airflow",
            name="Airflow by the maker's table at the total static",
            place="air_handler",
            tool_id="blower_table",
            way="measure",
            minutes=3,
            group="air",
            fitted=ducts.table_airflow,
            needs=("drill_test_holes",),
            techniques=special.COLUMN,
        ),
        Measurement(
            id="plate_airflow",
            name="Airflow by flow plate in the filter slot",
            place="air_handler",
            tool_id="flow_plate",
            way="measure",
            minutes=10,
            group="air",
            truth=field("filter_airflow"),
            needs=("drill_test_holes",),
            techniques=special.NORMALISED,
            caution=HANDS,
        ),
        Measurement(
            id="strip_rise_airflow",
            name="Airflow by the strips' watts and rise, with sea level's 1.08",
            place="air_handler",
            tool_id="strip_rise",
            way="measure",
            minutes=12,
            group="air",
            truth=ducts.rise_airflow,
            unfit=ducts.rise_unfit,
            needs=("drill_test_holes", "prove_meter"),
            techniques=special.OUT_OF_VIEW,
            caution=LIVE,
        ),
        Measurement(
            id="blower_speed",
            name="Speed of the blower wheel",
            place="air_handler",
            tool_id="tachometer",
            way="measure",
            minutes=4,
            group="air",
            truth=field("blower_speed"),
            techniques=special.FIRM,
            caution="Moving wheel: sleeves and hair tied. Take the door switch's tape off after.",
        ),
    ]


def trunks() -> list[Measurement]:
    """Statics in the trunks, away from the air handler.

    Returns
    -------
    list
        Return, then supply.
    """
    rows = (
        ("static_return_trunk", "Static in the return trunk", "air_handler", BACK),
        ("static_supply_trunk", "Static in the supply trunk", "zone", OUT),
    )
    return [
        Measurement(
            id=key,
            name=name,
            place=place,
            tool_id="manometer",
            way="measure",
            minutes=5,
            group="static",
            truth=field(key),
            needs=needs,
            techniques=special.STRAIGHT,
        )
        for key, name, place, needs in rows
    ]


def leakage() -> list[Measurement]:
    """The holes, whatever leaks through them while running.

    Returns
    -------
    list
        In the order of the place's card.
    """
    return [
        Measurement(
            id="duct_leakage",
            name="Duct leakage at 25 Pa, registers sealed: the hole, not what it loses running",
            place="return_grille",
            tool_id="duct_tester",
            way="measure",
            minutes=40,
            group="air",
            fitted=ducts.duct_leakage,
            unfit=while_off,
            techniques=special.SEALED,
            caution="Ash and dust fly, flues can spill: fuel-fired appliances off first.",
        )
    ]


def tracer() -> list[Measurement]:
    """Carbon dioxide at three points, with one probe.

    Returns
    -------
    list
        In the order of the place's card.
    """
    needs = ("release_tracer",)
    return [
        Measurement(
            id="tracer_grille",
            name="Carbon dioxide at the grille",
            place="return_grille",
            tool_id="tracer_probe",
            way="measure",
            minutes=3,
            group="air",
            truth=ducts.tracer_in_rooms,
            unfit=ducts.still,
            needs=needs,
            techniques=special.AT_ARM,
        ),
        Measurement(
            id="tracer_return",
            name="Carbon dioxide in the return at the air handler",
            place="air_handler",
            tool_id="tracer_probe",
            way="measure",
            minutes=3,
            group="air",
            fitted=ducts.tracer_at_air_handler,
            unfit=ducts.still,
            needs=(*needs, "drill_test_holes"),
            techniques=special.AT_ARM,
        ),
        Measurement(
            id="tracer_zone",
            name="Carbon dioxide around the return",
            place="air_handler",
            tool_id="tracer_probe",
            way="measure",
            minutes=3,
            group="air",
            fitted=ducts.tracer_around_return,
            unfit=ducts.still,
            needs=needs,
            techniques=special.AT_ARM,
        ),
    ]
