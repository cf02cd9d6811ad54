"""Where superheat and subcooling say nothing of the charge, the plant itself knows it."""

import pytest

from simulator.plant import charge_test, steady
from simulator.plant.conditions import Conditions
from simulator.serve.bench_readings import readings
from tests.plant.stand import installed, weather, winter


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
