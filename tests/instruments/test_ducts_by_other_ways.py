"""Airflow by table, plate and strips; holes at 25 Pa; tracer; the thermostat's history."""

from dataclasses import replace

import numpy as np
import pytest

from simulator.instruments.history_values import history
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.reading import Reading
from simulator.instruments.special_techniques import CLOSED, OUT_OF_VIEW
from simulator.instruments.techniques import Felt
from simulator.instruments.worked_out import work_out
from simulator.plant import standing, steady
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.properties import moist_air
from tests.plant.stand import installed, weather, winter

STRIPS_ALONE = replace(winter(), auxiliary_call=1.0, compressor_call=0.0)


def truth(key: str, built: Installation, point: OperatingPoint) -> float:
    """The value behind a measurement."""
    return MEASUREMENTS[key].true_value(built, point)


def over_airflow(key: str, around: Conditions | None = None, **faults: float) -> float:
    """One way of finding airflow over the airflow."""
    built = installed("txv", 1.0, **faults)
    point = steady.solve(built, around or weather())
    return truth(key, built, point) / float(point.airflow)


def test_the_table_is_right_for_a_sound_blower_whatever_the_ducts() -> None:
    # 10 to 15 % is what the trade trusts a table with; common practice, no source.
    for faults in ({}, {"loaded_filter": 6.0}, {"supply_leak": 0.2}):
        assert over_airflow("table_airflow", None, **faults) == pytest.approx(1.0, abs=0.08)


def test_the_table_believes_in_a_weak_blower() -> None:
    assert over_airflow("table_airflow", weak_blower=0.4) > 1.15


def test_the_table_knows_nothing_of_a_dirty_coil() -> None:
    assert over_airflow("table_airflow", None, dirty_indoor_coil=1.5) > 1.1


def test_the_plate_misses_what_enters_behind_it() -> None:
    assert over_airflow("plate_airflow", open_filter_slot=30.0) < over_airflow("plate_airflow")
    assert over_airflow("plate_airflow") == pytest.approx(1.0, abs=0.02)


def test_strips_give_the_airflow_at_sea_level() -> None:
    assert over_airflow("strip_rise_airflow", STRIPS_ALONE) == pytest.approx(1.0, abs=0.06)


def test_the_sea_level_factor_reads_low_up_a_mountain() -> None:
    # Thinner air warms more: flow comes out short by about the ratio of the densities.
    sea = over_airflow("strip_rise_airflow", STRIPS_ALONE)
    high = over_airflow("strip_rise_airflow", replace(STRIPS_ALONE, pressure=84000.0))
    assert high / sea == pytest.approx(84000.0 / 101325.0, abs=0.02)


def test_strips_say_nothing_while_the_compressor_runs_or_they_are_off() -> None:
    unfit = MEASUREMENTS["strip_rise_airflow"].unfit
    assert unfit is not None
    assert unfit(steady.solve(installed(), weather())) is not None
    both = steady.solve(installed(), replace(winter(), auxiliary_call=1.0))
    assert unfit(both) is not None
    assert unfit(steady.solve(installed(), STRIPS_ALONE)) is None


def test_plate_watts_at_a_low_voltage_read_high() -> None:
    # V²/R: 230 V on a 240 V plate is 9 % fewer watts.
    point = steady.solve(installed(), replace(STRIPS_ALONE, voltage=230.0))
    plate = {way.id: way for way in OUT_OF_VIEW}["plate_watts"]
    assert plate.felt(Felt(1.0, point, 0.5)) == pytest.approx((240.0 / 230.0) ** 2)


def test_an_unclosed_contact_stands_at_line_voltage() -> None:
    point = steady.solve(installed(), weather())
    assert CLOSED[1].felt(Felt(0.04, point, 0.5)) == float(point.voltage)


def test_the_wheel_turns_slower_with_a_weak_motor() -> None:
    weak, sound = (
        truth("blower_speed", built, steady.solve(built, weather()))
        for built in (installed(weak_blower=0.4), installed())
    )
    assert weak < 0.9 * sound


LEAKS = [{"supply_leak": 0.15}, {"return_leak": 0.15}, {"open_filter_slot": 30.0}]


@pytest.mark.parametrize("faults", LEAKS, ids=str)
def test_holes_are_found_and_everything_else_is_not(faults: dict[str, float]) -> None:
    rest = standing.at_rest(installed(), weather())
    tight = truth("duct_leakage", installed(), rest)
    assert truth("duct_leakage", installed("txv", 1.0, **faults), rest) > tight + 0.02
    dirty = installed(loaded_filter=6.0, weak_blower=0.4, undercharge=0.2)
    assert truth("duct_leakage", dirty, rest) == pytest.approx(tight)


def test_the_hole_is_not_what_it_loses_running() -> None:
    # The same hole loses less when little air is moved.
    slow = installed(supply_leak=0.15, weak_blower=0.5)
    fast = installed(supply_leak=0.15)
    lost = [float(steady.solve(b, weather()).supply_leak_airflow) for b in (slow, fast)]
    rest = standing.at_rest(fast, weather())
    holes = [truth("duct_leakage", b, rest) for b in (slow, fast)]
    assert holes[0] == pytest.approx(holes[1])
    assert lost[0] < 0.9 * lost[1]


def tracer_share(**faults: float) -> tuple[float, float]:
    """Return leak by three exact readings, and by the plant."""
    built = installed("txv", 1.0, **faults)
    point = steady.solve(built, weather())
    readings = [
        Reading(
            measurement=key,
            technique="careful",
            kind=MEASUREMENTS[key].kind,
            value=truth(key, built, point),
        )
        for key in ("tracer_return", "tracer_grille", "tracer_zone")
    ]
    (only,) = work_out(list(enumerate(readings)), "txv", "R-410A")
    assert only.id == "tracer_share"
    return only.value, float(point.return_leak_airflow) / float(point.airflow)


@pytest.mark.parametrize("faults", [{}, {"return_leak": 0.15}, {"open_filter_slot": 30.0}], ids=str)
def test_tracer_gives_the_part_that_leaks_in(faults: dict[str, float]) -> None:
    worked, true = tracer_share(**faults)
    assert worked == pytest.approx(true, abs=1e-6)
    # 400 ppm between the ends is what the trade asks for; common practice, no source.
    assert np.isfinite(worked)


def test_tracer_works_where_temperature_says_nothing() -> None:
    # Between rooms and space of one temperature a mixing fraction by temperature is void.
    built = installed(return_leak=0.15)
    point = steady.solve(built, weather())
    contrast = truth("tracer_grille", built, point) - truth("tracer_zone", built, point)
    assert contrast > 400e-6


def statics(**faults: float) -> dict[str, float]:
    """At the air handler and in the trunks, and the drops between. [Pa]"""
    built = installed(**faults)
    point = steady.solve(built, weather())
    plenum, trunk = truth("static_supply", built, point), truth("static_supply_trunk", built, point)
    end, back = (
        truth("static_before_filter", built, point),
        truth("static_return_trunk", built, point),
    )
    return {"supply": trunk, "return": back, "out": plenum - trunk, "in": back - end}


def test_a_crushed_trunk_stands_between_its_two_statics() -> None:
    sound = statics()
    assert sound["supply"] > 0.0 > sound["return"]
    assert sound["out"] > 0.0 < sound["in"]
    out = statics(restricted_supply_duct=2.0)
    assert out["out"] > 2.0 * sound["out"]
    assert out["supply"] < 0.9 * sound["supply"]
    back = statics(restricted_return_duct=2.5)
    assert back["in"] > 2.0 * sound["in"]
    assert back["return"] > 0.9 * sound["return"]


def test_closed_registers_raise_the_trunk_as_they_do_the_plenum() -> None:
    # Square law: less flow through a sound trunk takes less.
    sound, shut = statics(), statics(closed_registers=0.8)
    assert shut["supply"] > 1.2 * sound["supply"]
    assert shut["out"] < sound["out"]


def test_humidity_around_the_supply_ducts_is_that_of_their_space() -> None:
    built = installed()
    point = steady.solve(built, weather())
    air = moist_air.humidity_ratio(
        point.zone_temperature, truth("zone_humidity", built, point), point.pressure
    )
    assert float(air) == pytest.approx(float(point.zone_humidity_ratio), rel=1e-6)


def test_history_follows_capacity_and_weather() -> None:
    healthy = steady.solve(installed(), weather())
    usual = history(installed(), healthy)
    assert 0.2 < usual.run_fraction < 0.95
    poor = installed(undercharge=0.3, supply_leak=0.15)
    assert history(poor, steady.solve(poor, weather())).run_fraction > usual.run_fraction + 0.1
    mild = steady.solve(installed(), weather(85.0))
    assert history(installed(), mild).run_fraction < usual.run_fraction
    # Kept, whether it runs at the moment or not.
    assert history(installed(), standing.at_rest(installed(), weather())) == usual


def test_a_unit_that_cannot_keep_up_runs_all_day_and_starts_no_more() -> None:
    dead = installed()
    dead = replace(
        dead, unit=replace(dead.unit, compressor=replace(dead.unit.compressor, is_open=1.0))
    )
    kept = history(dead, steady.solve(dead, weather()))
    assert kept.run_fraction == 1.0
    assert kept.starts == 0.0


def test_starts_are_most_frequent_at_half_load() -> None:
    # NEMA DC 3 (from memory): three an hour at half load, fewer on either side.
    for outdoor in (80.0, 85.0, 95.0):
        kept = history(installed(), steady.solve(installed(), weather(outdoor)))
        run = kept.run_fraction
        assert kept.starts == pytest.approx(24.0 * 12.0 * run * (1.0 - run))
        assert kept.starts <= 72.0


def test_history_is_kept_in_winter_too() -> None:
    for outdoor, low, high in ((20.0, 0.5, 1.0), (50.0, 0.02, 0.6)):
        kept = history(installed(), steady.solve(installed(), winter(outdoor)))
        assert low <= kept.run_fraction <= high
