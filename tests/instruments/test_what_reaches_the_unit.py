"""Contactor, disconnect, breaker and legs: which volts stand where, by Kirchhoff's laws."""

import pytest

from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.take import BEHIND_DISCONNECT, NOTHING_ARRIVES
from simulator.plant import standing, steady
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.repairs._catalogue import discover as repairs
from tests.instruments.test_electrical_parts import truth, whole
from tests.plant.stand import installed, weather

HELD_OPEN = [
    (installed(tripped_leak_detector=1.0), weather(), False),
    (installed(blocked_drain=1.0), weather(), False),
    (installed(slow_outdoor_fan=1.0), weather(115.0), False),
    (installed(), weather(), True),
]


@pytest.mark.parametrize(("built", "around", "at_rest"), HELD_OPEN)
def test_nothing_stands_behind_an_open_contactor_and_the_line_over_it(
    built: Installation, around: Conditions, at_rest: bool
) -> None:
    """Kirchhoff's voltage law round an open contact."""
    point = (standing.at_rest if at_rest else steady.solve)(built, around)
    assert point.state in ("compressor_off", "high_pressure_trip", "off")
    assert truth("contactor_coil", built, point) == 0.0
    for key in ("compressor_voltage", "leg_1_voltage", "leg_2_voltage"):
        assert truth(key, built, point) == 0.0
    assert truth("contactor_drop", built, point) == pytest.approx(float(point.voltage))


def test_an_overload_opens_in_the_motor_and_leaves_the_contactor_in() -> None:
    built = installed(open_compressor=1.0)
    point = steady.solve(built, weather())
    assert truth("compressor_voltage", built, point) == pytest.approx(240.0, abs=0.5)
    assert truth("contactor_drop", built, point) < 0.1


@pytest.mark.parametrize("key", sorted(BEHIND_DISCONNECT))
def test_nothing_arrives_with_the_disconnect_out(key: str) -> None:
    point = standing.at_rest(installed(), weather())
    for way in (item.id for item in MEASUREMENTS[key].techniques):
        reading = whole(key, way, installed(), point)
        assert reading.value is None
        assert reading.words == NOTHING_ARRIVES


def test_a_grounded_winding_takes_the_outdoor_unit_off_the_line() -> None:
    """Common practice, no source: fan and compressor dead, 24 V still on the contactor."""
    built = installed(grounded_compressor=1.0)
    point = steady.solve(built, weather())
    assert point.state == "compressor_off"
    assert float(point.outdoor_current) == float(point.outdoor_airflow) == 0.0
    for key in ("compressor_voltage", "leg_1_voltage", "leg_2_voltage"):
        assert truth(key, built, point) == 0.0
    assert truth("voltage", built, point) == pytest.approx(240.0)
    assert truth("contactor_coil", built, point) > 20.0
    rest = standing.at_rest(built, weather())
    assert truth("winding_insulation", built, rest) < 1e3
    assert truth("winding_resistance", built, rest) < 2.0
    # An open winding leaves the fan running and the shell well apart.
    opened = installed(open_compressor=1.0)
    assert float(steady.solve(opened, weather()).outdoor_airflow) > 0.0
    assert truth("winding_insulation", opened, rest) > 20e6


def test_a_lost_leg_comes_back_through_the_winding() -> None:
    """Kirchhoff: half the line on each terminal, none between, all of it over the open pole."""
    built = installed(lost_leg=1.0)
    point = steady.solve(built, weather())
    assert point.state == "compressor_off"
    assert float(point.outdoor_current) == float(point.outdoor_airflow) == 0.0
    for key in ("leg_1_voltage", "leg_2_voltage"):
        assert truth(key, built, point) == pytest.approx(120.0)
    assert truth("compressor_voltage", built, point) == 0.0
    assert truth("contactor_drop", built, point) == pytest.approx(240.0)
    assert truth("voltage", built, point) == pytest.approx(240.0)
    assert truth("contactor_coil", built, point) > 20.0
    mended = repairs()["renew_terminations"]().applied_to(built)
    assert steady.solve(mended, weather()).state == "running"
