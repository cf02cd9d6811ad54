"""``benchcall readings``: gauges on another table, heads past the tables' end, strips alone."""

import json
import math
from typing import Any

import pytest

from simulator.plant.catalogue import METERING
from simulator.serve import command
from simulator.serve.bench_readings import readings
from simulator.serve.stand.gauges import GAUGE_FED
from simulator.serve.stand.limits import REFRIGERANTS, UNITS


def value(found: dict[str, Any], name: str) -> float:
    """A reading, or what only the plant knows."""
    return float((found["readings"] | found["truth"])[name]["value"])


def test_r454b_read_as_r410a_asks_for_gas_twice() -> None:
    """Superheat reads some 5 °F high and subcooling some 3.5 °F low: both tables by CoolProp."""
    right, wrong = (readings(unit="dunlin_48", gauges=each) for each in (None, "R-410A"))
    assert value(wrong, "superheat") - value(right, "superheat") == pytest.approx(5.0, abs=0.7)
    assert value(wrong, "subcooling") - value(right, "subcooling") == pytest.approx(-3.5, abs=0.7)
    assert [each for each in REFRIGERANTS if each in wrong["notes"][0]] == ["R-410A", "R-454B"]
    # Nor is a charge test made with another gas's table.
    assert (value(right, "charge_test_valid"), value(wrong, "charge_test_valid")) == (1.0, 0.0)
    moved = (*GAUGE_FED, "charge_test_valid")
    for part in ("readings", "truth"):
        for name, row in right[part].items():
            assert name in moved or wrong[part][name] == row


@pytest.mark.parametrize("mode", ["cooling", "heating"])
def test_the_right_table_changes_nothing(mode: str) -> None:
    plain, set_right = readings(mode=mode), readings(mode=mode, gauges="R-410A")
    assert "notes" not in set_right
    for name in GAUGE_FED:
        assert value(plain, name) == pytest.approx(value(set_right, name), abs=1e-6)


def test_the_command_sets_gauges_too(capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["readings", "--json", "--unit", "dunlin_48", "--gauges", "R-410A"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told == readings(unit="dunlin_48", gauges="R-410A")
    assert command.main(["readings", "--gauges", "R-12"]) == 2
    assert "gauges must be" in capsys.readouterr().err


@pytest.mark.parametrize("metering", METERING)
@pytest.mark.parametrize("unit", UNITS)
def test_any_gas_on_the_hottest_day_is_numbers_or_a_named_trip(unit: str, metering: str) -> None:
    """JSON knows no number that is none: what cannot start again has no minutes."""
    for fluid in REFRIGERANTS:
        found = readings(unit=unit, metering=metering, refrigerant=fluid, outdoor=125)
        assert found["state"] in ("running", "high_pressure_trip", "overload_trip")
        for part in ("readings", "truth"):
            assert all(math.isfinite(row["value"]) for row in found[part].values())


def test_a_trip_at_the_tables_end_says_so() -> None:
    said = readings(refrigerant="R-454B", outdoor=125, faults={"dirty_outdoor_coil": 0.5})
    assert said["state"] == "high_pressure_trip"
    assert "581 psig" in said["notes"][0]
    assert "610 psig" in said["notes"][0]
    assert "notes" not in readings(faults={"slow_outdoor_fan": 1.0})


def test_emergency_heat_is_strips_alone() -> None:
    """9.6 kW at 240 V are 40 A, and the day's heat is the strips' (resistance heat)."""
    found = readings(mode="heating", outdoor=25, strips="emergency")
    assert found["state"] == "compressor_off"
    assert value(found, "strip_current") == pytest.approx(40.0)
    assert value(found, "compressor_energy") == value(found, "outdoor_fan_energy") == 0.0
    pump = readings(mode="heating", outdoor=25)
    assert value(found, "total_energy") > 2.0 * value(pump, "total_energy")
    assert "balance_point" not in found["truth"]


def test_the_balance_point_rises_with_what_the_pump_has_lost() -> None:
    """By definition: where the compressor alone just holds the rooms."""
    sound = readings(mode="heating")
    leaking = readings(mode="heating", faults={"leaking_compressor": 0.4})
    lofty = readings(mode="heating", altitude=7000)
    assert 5.0 < value(sound, "balance_point") < 35.0
    assert value(leaking, "balance_point") > value(sound, "balance_point") + 3.0
    assert value(lofty, "balance_point") != value(sound, "balance_point")
    assert "balance_point" not in readings()["truth"]


def test_a_cycle_of_frost_and_defrost_costs_what_the_clean_coil_gave() -> None:
    """Wet and just below freezing: a few percent of the time, some percent of the heat."""
    wet, dry = (
        readings(mode="heating", outdoor=33, outdoor_wb=bulb, house="reference")
        for bulb in (32.5, 26.0)
    )
    assert 1.0 < value(wet, "defrost_share") < 15.0
    assert value(wet, "delivered_over_defrosts") < 0.97 * value(wet, "delivered_capacity")
    assert value(dry, "defrost_share") < value(wet, "defrost_share")
