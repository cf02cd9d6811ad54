"""Where superheat and subcooling say nothing of the charge, the plant itself knows it."""

from typing import Any

import pytest

from simulator.instruments.charging_verdict import orifice_verdict, subcooling_verdict
from simulator.plant import charge_test, steady
from simulator.plant.conditions import Conditions
from simulator.serve.bench_readings import readings
from tests.plant.stand import fahrenheit, installed, weather, winter


@pytest.mark.parametrize(
    ("faults", "around", "valid"),
    [
        ({}, weather(), True),
        ({"undercharge": 0.2}, weather(), True),
        ({}, weather(52.0), False),
        ({}, winter(), False),
        ({"iced_indoor_coil": 0.2}, weather(), False),
        ({"loaded_filter": 12.0}, weather(), False),
        ({"open_compressor": 1.0}, weather(), False),
        ({"slow_outdoor_fan": 1.0}, weather(), False),
        ({"undercharge": 0.5}, weather(75.0, wet=60.0), False),
    ],
    ids=str,
)
def test_a_charge_test_needs_a_running_thawed_unit_with_air(
    faults: dict[str, float], around: Conditions, *, valid: bool
) -> None:
    """California Title 24 RA3.2; a coil below freezing ices (common practice, no source)."""
    built = installed(**faults)
    assert charge_test.is_valid(built, steady.solve(built, around)) is valid


def test_it_is_told_beside_the_truth() -> None:
    for faults, valid in (({}, 1.0), ({"iced_indoor_coil": 0.9}, 0.0)):
        found = readings(faults=faults)
        assert found["truth"]["charge_test_valid"] == {"value": valid, "unit": ""}


@pytest.mark.parametrize(
    ("asked", "valid"),
    [
        ({"outdoor": 55.0}, 1.0),
        ({"outdoor": 56.0}, 1.0),
        ({"return_db": 70.0, "return_wb": 60.0}, 1.0),
        ({"return_db": 69.5, "return_wb": 60.0}, 0.0),
        ({"return_db": 62.0, "return_wb": 55.0}, 0.0),
        ({"return_db": 81.0}, 0.0),
        ({"return_wb": 58.0}, 1.0),
        ({"return_wb": 50.0}, 0.0),
        ({"return_wb": 78.0}, 0.0),
        ({"outdoor": 115.0}, 1.0),
        ({"faults": {"wrong_refrigerant": 1.0}}, 0.0),
        ({"refrigerant": "R-32"}, 0.0),
        ({"gauges": "R-22"}, 0.0),
        ({"gauges": "R-410A"}, 1.0),
    ],
    ids=str,
)
def test_a_valve_is_charged_by_the_plate_near_its_load(asked: dict[str, Any], valid: float) -> None:
    """RA3.2: outdoors 55 °F or more, return air 70 °F or more.

    AHRI 210/240 rates cooling no drier than 57 °F wet bulb; about 80 °F as the most, and the
    plate's own refrigerant and table: common practice, no source.
    """
    assert said(**asked) == valid


@pytest.mark.parametrize(
    ("outdoor", "dry", "wet", "valid"),
    [
        (75.0, 76.0, 62.0, 1.0),  # target 15.5
        (95.0, 80.0, 62.0, 1.0),  # 5.5
        (95.0, 80.0, 61.0, 0.0),  # 4, a dash
        (105.0, 80.0, 65.0, 1.0),  # 5, the last before the dashes
        (115.0, 80.0, 58.0, 0.0),  # -10.5
        (115.0, 80.0, 70.0, 1.0),  # 7.5
        (116.0, 80.0, 71.0, 0.0),  # beyond the chart's last row
        (60.0, 74.0, 52.0, 1.0),  # 8
        (60.0, 74.0, 49.0, 0.0),  # before its first column
    ],
)
def test_the_chart_of_an_orifice_has_its_dashes(
    outdoor: float, dry: float, wet: float, valid: float
) -> None:
    """California Title 24 RA3.2, table RA3.2-2: 55 to 115 °F by 50 to 76 °F, from 5 °F on."""
    found = said(metering="orifice", outdoor=outdoor, return_db=dry, return_wb=wet)
    assert found == valid


def said(**asked: Any) -> float:
    """Whether the readings command calls the test valid."""
    return float(readings(**asked)["truth"]["charge_test_valid"]["value"])


def test_the_verdicts_take_the_limit_itself_as_inside() -> None:
    """California Title 24 RA3.2: 55 °F outdoors or more."""
    for outdoor, verdict in ((55.0, "pass"), (54.9, "no valid standard test")):
        air = fahrenheit(outdoor)
        assert orifice_verdict(6.0, 6.0, air).verdict == verdict
        assert subcooling_verdict(6.0, 6.0, air).verdict == verdict
