"""Beside superheat and subcooling the stand says whether they may be read as a charge test.

The reasons are the plant's own, held in tests/plant/test_charge_test.py; here are the words.
"""

from typing import Any

import pytest

from simulator.serve.bench_readings import readings
from tests.serve.test_stand import WINTER, asked


@pytest.mark.parametrize(
    ("setting", "said"),
    [
        ({}, "A charge test counts here: air, coil and weather allow it."),
        ({"faults": [{"name": "loaded_filter", "severity": "12"}]}, " cfm is the least. Air"),
        ({"faults": [{"name": "loaded_filter", "severity": "12"}], "units": "si",
          "outdoor": "35", "return_db": "26.7", "return_wb": "19.4"}, " L/s is the least. Air"),
        ({"faults": [{"name": "iced_indoor_coil", "severity": "40"}]}, "ice on the indoor coil"),
        ({"faults": [{"name": "open_compressor", "severity": "1"}]}, "the compressor stands"),
        ({"faults": [{"name": "undercharge", "severity": "45"}], "outdoor": "75",
          "return_wb": "60"}, "boils below freezing"),
        ({"gauges": "R-22"}, "the table of another refrigerant"),
        ({"faults": [{"name": "wrong_refrigerant", "severity": "1"}]}, "not the refrigerant of"),
        ({"return_db": "84"}, "return air between 70 °F and 80 °F"),
        ({"return_wb": "52"}, "too far from what the plate's subcooling"),
        ({"metering": "orifice", "return_wb": "58"}, "a fixed orifice has no entry"),
        ({"gauges": "R-410A"}, "A charge test counts here"),
        (WINTER, "No charge test while heating"),
    ],
)  # fmt: skip
def test_it_gives_its_reason(setting: dict[str, Any], said: str) -> None:
    told = asked(**setting)["stand"]["charge_test"]
    assert said in told["text"]
    assert told["counts"] is told["text"].startswith("A charge test counts")


def test_it_agrees_with_the_readings_command() -> None:
    for faults in ({}, {"loaded_filter": 12.0}):
        typed = [{"name": name, "severity": str(size)} for name, size in faults.items()]
        told = asked(faults=typed)["stand"]["charge_test"]["counts"]
        assert told is bool(readings(faults=faults)["truth"]["charge_test_valid"]["value"])
