"""What carelessness does to air, statics, amps, volts and calls, against the trade's sizes."""

from dataclasses import replace

import numpy as np
import pytest

from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.take import technique_of
from simulator.instruments.techniques import Felt
from simulator.plant import steady
from simulator.plant.conditions import Conditions
from simulator.plant.operating_point import OperatingPoint
from simulator.properties import moist_air
from simulator.quantities.kinds import CFM
from tests.plant.stand import installed, weather, winter

DRAWS = np.linspace(0.0, 1.0, 21)


def felt(
    key: str, technique: str, draw: float = 0.5, around: Conditions | None = None, **faults: float
) -> tuple[float, float, OperatingPoint]:
    """The true value, what is felt instead, and the plant."""
    built = installed("txv", 1.0, **faults)
    point = steady.solve(built, around or weather())
    item = MEASUREMENTS[key]
    true = item.true_value(built, point)
    return true, technique_of(item, technique).felt(Felt(true, point, draw)), point


def errors(key: str, technique: str, around: Conditions | None = None, **f: float) -> np.ndarray:
    """Felt less true over all draws, in SI."""
    true, _, point = felt(key, technique, 0.5, around, **f)
    way = technique_of(MEASUREMENTS[key], technique)
    return np.array([way.felt(Felt(true, point, float(draw))) - true for draw in DRAWS])


def test_the_centre_line_is_fifteen_to_twenty_five_percent_high() -> None:
    true, _, _ = felt("coil_airflow", "centre")
    assert true > 500.0 * CFM
    off = errors("coil_airflow", "centre") / true
    assert off.min() == pytest.approx(0.15)
    assert off.max() == pytest.approx(0.25)


@pytest.mark.parametrize("key", ["near_register_temperature", "far_register_temperature"])
def test_infrared_on_a_louvre_is_up_to_five_degrees_off(key: str) -> None:
    off = 1.8 * errors(key, "infrared")
    assert off.min() == pytest.approx(-5.0)
    assert off.max() == pytest.approx(5.0)
    assert np.abs(off).min() >= 1.0 - 1e-9


def test_the_hatch_reads_towards_the_house() -> None:
    for key, house in (("zone_temperature", "grille_dry_bulb"), ("zone_humidity", "room_humidity")):
        true, at_hatch, point = felt(key, "hatch")
        inside = MEASUREMENTS[house].true_value(installed(), point)
        assert abs(true - inside) > 0.0
        part = (errors(key, "hatch")) / (inside - true)
        assert part.min() > 0.1
        assert part.max() < 1.0
        assert at_hatch != true


def test_layers_of_a_return_follow_what_leaks_in_and_stay_within_four_degrees() -> None:
    for key in ("return_dry_bulb", "return_wet_bulb"):
        spread = {
            share: 1.8 * float(np.std(errors(key, "one_point", return_leak=share)))
            for share in (0.0, 0.05, 0.10)
        }
        assert spread[0.0] < 0.5 * spread[0.05] < 0.5 * spread[0.10]
        off = 1.8 * errors(key, "one_point", open_filter_slot=50.0, return_leak=0.15)
        assert off.max() == pytest.approx(-off.min())
        assert 1.0 < off.max() <= 4.0 + 1e-9


def test_a_layer_is_never_outside_what_is_mixed() -> None:
    for draw in DRAWS:
        _, one, point = felt("return_dry_bulb", "one_point", float(draw), return_leak=0.10)
        grille, zone = float(point.grille_temperature), float(point.return_zone_temperature)
        assert min(grille, zone) - 1e-9 <= one <= max(grille, zone) + 1e-9


def test_wind_and_open_doors_hide_the_houses_pressure() -> None:
    gusts = errors("house_pressure", "gusts")
    assert gusts.min() == pytest.approx(-2.0)
    assert gusts.max() == pytest.approx(2.0)
    true, left, _ = felt("house_pressure", "open_door", supply_leak=0.15)
    assert abs(true) > 0.3
    assert 0.0 < left / true < 0.25


STATICS = ("static_before_filter", "static_after_filter", "static_after_coil", "static_supply")


@pytest.mark.parametrize("key", STATICS)
def test_a_leaking_hole_loses_part_of_the_static(key: str) -> None:
    true, _, _ = felt(key, "leaking_hole")
    kept = errors(key, "leaking_hole") / true
    assert kept.min() == pytest.approx(-0.33)
    assert kept.max() == pytest.approx(-0.10)


def test_one_leg_shows_the_blower_and_half_of_the_strips() -> None:
    true, one, _ = felt("air_handler_current", "one_leg")
    assert one == pytest.approx(true)
    true, one, point = felt("air_handler_current", "one_leg", 0.5, None, strips_on=4.0)
    assert float(point.strip_current) > 10.0
    assert one == pytest.approx(true - 0.5 * float(point.strip_current), rel=0.05)


def test_a_coarse_range_is_off_by_the_same_amps_however_few_there_are() -> None:
    off = np.abs(errors("air_handler_current", "coarse"))
    assert off.min() == pytest.approx(0.1, abs=0.02)
    assert off.max() == pytest.approx(0.4)
    # Below 2 A that is more than the 2 % of a clamp many times over.
    true, _, _ = felt("air_handler_current", "coarse", weak_blower=0.4)
    assert off.min() / min(true, 2.0) > 0.04


def test_volts_before_the_start_lack_the_wires_own_drop() -> None:
    true, idle, _ = felt("voltage", "idle")
    assert 0.2 < idle - true < 0.02 * true
    at_rest = replace(weather(), compressor_call=0.0)
    assert abs(felt("voltage", "idle", 0.5, at_rest)[1] - true) < idle - true


def test_strips_are_called_by_a_defrost_and_by_nothing_else() -> None:
    frosty = winter(30.0, humidity=0.85)
    true, read, point = felt("auxiliary_call", "in_defrost", 0.5, frosty)
    assert float(point.frost_rate) > 0.0
    assert true == 0.0
    assert read > 20.0
    assert errors("auxiliary_call", "in_defrost").max() == 0.0
    # What does not run melts no frost.
    resting = replace(frosty, compressor_call=0.0)
    assert errors("auxiliary_call", "in_defrost", resting).max() == 0.0


def test_the_large_pipes_port_is_suction_only_while_cooling() -> None:
    assert np.abs(errors("suction_pressure", "large_port")).max() < 5000.0
    true, hot, point = felt("suction_pressure", "large_port", 0.5, winter())
    assert hot > 2.0 * true
    assert hot == pytest.approx(float(point.discharge_pressure) - float(point.pressure))


@pytest.mark.parametrize("key", ["suction_pressure", "liquid_pressure", "vapour_port_pressure"])
def test_a_core_that_is_barely_pressed_reads_low(key: str) -> None:
    true, _, _ = felt(key, "not_seated")
    assert (errors(key, "not_seated") / true).max() < -0.15


def test_carelessness_is_quicker_where_it_is() -> None:
    for key, technique in (
        ("coil_airflow", "centre"),
        ("near_register_temperature", "infrared"),
        ("zone_temperature", "hatch"),
        ("return_dry_bulb", "one_point"),
        ("static_supply", "leaking_hole"),
        ("house_pressure", "gusts"),
        ("air_handler_current", "one_leg"),
    ):
        item = MEASUREMENTS[key]
        assert item.minutes_by(technique) < item.minutes_by("careful") == item.minutes


def test_a_fan_that_moves_is_warned_of() -> None:
    assert "fan" in (MEASUREMENTS["outdoor_leaving_temperature"].caution or "").lower()


def test_humidity_at_the_hatch_is_that_of_mixed_air() -> None:
    true, read, point = felt("zone_humidity", "hatch", 0.0)
    house, zone = float(point.grille_humidity_ratio), float(point.zone_humidity_ratio)
    warm = float(point.zone_temperature)
    mixed = warm + 0.3 * (float(point.grille_temperature) - warm)
    water = float(moist_air.humidity_ratio(mixed, read, point.pressure))
    assert true != read
    assert water == pytest.approx(zone + 0.3 * (house - zone), rel=1e-6)
