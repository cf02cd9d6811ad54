"""What a day takes by part, as ``benchcall readings`` tells it beside the truth."""

from dataclasses import asdict
from typing import Any

import pytest

from simulator.plant.energy import Parts
from simulator.serve.bench_readings import READINGS, readings
from simulator.serve.stand import house_day
from simulator.serve.stand.setting import Setting
from simulator.serve.stand_page.bill import bill

STATES = pytest.mark.parametrize(
    "faults", [{}, {"supply_leak": 0.4}, {"strips_on": 4.8}, {"loaded_filter": 8.0}], ids=str
)


def truth(**asked: Any) -> dict[str, dict[str, Any]]:
    """Values and units that only the plant knows."""
    found: dict[str, dict[str, Any]] = readings(**asked)["truth"]
    return found


@STATES
@pytest.mark.parametrize(("what", "unit"), [("energy", "kWh/day"), ("cost", "$/day")])
def test_the_parts_add_up(faults: dict[str, float], what: str, unit: str) -> None:
    """By arithmetic."""
    found = truth(faults=faults)
    parts = [found[f"{part}_{what}"] for part in Parts._fields]
    total = found[f"total_{what}"]
    assert total["value"] == pytest.approx(sum(part["value"] for part in parts), rel=1e-9)
    assert total["value"] > 0
    assert {row["unit"] for row in [*parts, total]} == {unit}


@STATES
def test_dollars_are_kilowatt_hours_at_the_price(faults: dict[str, float]) -> None:
    """15.45 ¢/kWh, EIA US residential average, January 2024: the reference house's tariff."""
    found = truth(faults=faults)
    for part in (*Parts._fields, "total"):
        dollars, used = found[f"{part}_cost"]["value"], found[f"{part}_energy"]["value"]
        assert dollars == pytest.approx(0.1545 * used, rel=1e-3)


@STATES
def test_it_is_part_of_the_truth_and_of_no_tool(faults: dict[str, float]) -> None:
    """No meter of a technician shows a day by part: by what the tools are."""
    found = readings(faults=faults)
    assert set(house_day.KINDS) <= set(found["truth"])
    assert not set(house_day.KINDS) & {*found["readings"], *READINGS}
    assert 0.0 <= found["truth"]["run_fraction"]["value"] <= 100.0


@STATES
def test_the_stand_prints_the_same_day(faults: dict[str, float]) -> None:
    """Two doors to one plant."""
    setting = Setting(faults=faults)
    found = truth(**asdict(setting))
    for row in bill(setting, "us")["rows"]:
        assert row["energy"] == f"{found[row['part'] + '_energy']['value']:,.1f}"
        assert row["cost"] == f"{found[row['part'] + '_cost']['value']:,.2f}"
