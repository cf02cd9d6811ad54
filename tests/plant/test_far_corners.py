"""States at the edge of what may be asked for: they are physical, or a trip by name."""

from dataclasses import replace

import numpy as np
import pytest

from simulator.components import metering_device
from simulator.faults._catalogue import discover, named
from simulator.plant import catalogue, steady
from simulator.plant.case import TABLES_LEFT
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.plant.short_cycle import short_cycle
from simulator.properties import refrigerant
from tests.plant.stand import installed, weather, winter

UNITS = ("quail_36", "siskin_18", "martlet_24", "heron_30", "dunlin_48", "bittern_60")
METERING = pytest.mark.parametrize("metering", catalogue.METERING)
COLD = (-5.0, 5.0, 15.0, 30.0, 47.0)  # [°F]


def filled(unit: str, fluid: str, metering: str = "txv") -> Installation:
    """A unit with another refrigerant in it, nothing resized."""
    built = catalogue.load_installation(metering=metering, unit=unit)
    return replace(built, unit=replace(built.unit, refrigerant=fluid))


def over(built: Installation, around: list[Conditions]) -> OperatingPoint:
    """Its states in several weathers."""
    return steady.solve_many([built] * len(around), around)


@METERING
@pytest.mark.parametrize("unit", UNITS)
def test_cooling_in_the_cold_never_runs_backwards(unit: str, metering: str) -> None:
    """A stuck reversing valve in winter: heat flows down, but the compressor never drives itself.

    Liquid that does not boil is not choked, so the device starves the coil (Kim and O'Neal
    1994); before, suction stood above the head and power fell below zero.
    """
    built = catalogue.load_installation(metering=metering, unit=unit)
    stuck = named("stuck_reversing_valve", 1.0).applied_to(built)
    point = over(stuck, [winter(outdoor) for outdoor in COLD])
    assert set(point.mode) == {"cooling"}
    assert set(point.state) <= {"running", "low_pressure_trip"}
    runs = point.state == "running"
    assert runs.any()
    assert (point.discharge_pressure > point.suction_pressure)[runs].all()
    assert (point.compressor_power > 50.0)[runs].all()


def test_a_device_stops_where_nothing_drives_and_is_choked_elsewhere() -> None:
    device = catalogue.load_installation(metering="orifice").unit.metering
    behind = np.array([3e5, 6e5, 8.0e5, 9.5e5, 1.2e6])
    driving = metering_device.driving_pressure(device, 9e5, 7e5, behind)
    choked = 9e5 - float(device.flash_weight) * 7e5
    assert driving[:2] == pytest.approx([choked, choked])
    assert (np.diff(driving) <= 0.0).all()
    assert 0.0 < driving[3] == driving[4] < 1e-3 * choked
    two_phase = metering_device.driving_pressure(device, 9e5, 9e5, behind)
    assert np.isfinite(two_phase).all()
    assert two_phase[0] == two_phase[1] > two_phase[3] > 0.0


@METERING
@pytest.mark.parametrize("amount", [0.1, 0.3, 0.6])
def test_what_is_choked_while_heating_stands_behind_the_port(metering: str, amount: float) -> None:
    """Liquid backs up before a plugged drier in either mode; a gauge and a pipe never show less
    than none (signs: common practice, no source)."""
    around = winter()
    sound = steady.solve(installed(metering), around)
    point = steady.solve(installed(metering, liquid_line_restriction=amount), around)
    assert float(point.subcooling) > float(sound.subcooling) > 0.0
    assert float(point.superheat) > float(sound.superheat)
    assert float(point.liquid_after_drier_temperature) < float(point.liquid_line_temperature)


def test_no_liquid_pipe_is_warmer_than_its_pressure_lets_it() -> None:
    """Warm weather leaves little subcooling while heating: what boils in the line is as cold."""
    for fault in ({}, {"undercharge": 0.3}, {"stuck_check_valve": 1.0}):
        point = over(installed("txv", **fault), [winter(50.0), winter(65.0)])
        assert (point.subcooling >= -1e-9).all()


@METERING
@pytest.mark.parametrize("fluid", ["R-22", "R-32", "R-410A", "R-454B"])
@pytest.mark.parametrize("unit", ["quail_36", "heron_30", "martlet_24"])
def test_another_refrigerant_runs_or_trips_by_name(unit: str, fluid: str, metering: str) -> None:
    """Where the tables end below the switch a trip is reported, never a number or nothing."""
    built = filled(unit, fluid, metering)
    dirty = named("dirty_outdoor_coil", 0.7).applied_to(built)
    still = named("slow_outdoor_fan", 1.0).applied_to(built)
    around = [weather(outdoor) for outdoor in (75.0, 95.0, 110.0, 125.0)]
    end = refrigerant.load(fluid).highest_pressure - TABLES_LEFT
    for each in (built, dirty, still):
        point = over(each, around)
        assert "no_solution" not in set(point.state)
        assert (point.discharge_pressure < end).all()
        for one in around:
            turn = short_cycle(each, one)
            assert turn is None or (turn.on_seconds > 0.0 and np.isfinite(turn.off_seconds))
    assert set(point.state) == {"high_pressure_trip"}


def test_the_switch_of_the_right_refrigerant_is_the_plates() -> None:
    for unit in UNITS:
        built = catalogue.load_installation(unit=unit).unit
        end = refrigerant.load(built.refrigerant).highest_pressure
        assert float(built.high_cut_out) < end - TABLES_LEFT


WORST_PAIRS = (
    ("slow_outdoor_fan", "undercharge", "cooling"),
    ("stuck_reversing_valve", "undercharge", "cooling"),
    ("iced_indoor_coil", "undercharge", "heating"),
    ("iced_indoor_coil", "open_bypass", "heating"),
    ("iced_indoor_coil", "stuck_check_valve", "heating"),
)


FAR_PAIRS = (
    ("siskin_18", "txv", "iced_indoor_coil", "strips_on", 95.0, "low_pressure_trip"),
    ("siskin_18", "orifice", "iced_indoor_coil", "slow_outdoor_fan", 75.0, "high_pressure_trip"),
    ("martlet_24", "txv", "iced_indoor_coil", "strips_on", 55.0, "low_pressure_trip"),
    ("martlet_24", "orifice", "leaking_compressor", "slow_outdoor_fan", 75.0, "high_pressure_trip"),
    ("dunlin_48", "txv", "open_bypass", "stuck_reversing_valve", 115.0, "high_pressure_trip"),
)


@pytest.mark.parametrize(("unit", "metering", "one", "other", "outdoor", "trip"), FAR_PAIRS)
def test_what_nothing_settles_at_opens_the_switch_that_its_neighbours_open(
    unit: str, metering: str, one: str, other: str, outdoor: float, trip: str
) -> None:
    """The same pair a little smaller opens that switch too; at its worst no state balances."""
    found = []
    for share in (0.98, 1.0):
        built = catalogue.load_installation(metering=metering, unit=unit)
        for name in (one, other):
            kind = discover()[name]
            size = kind.high if kind.is_all_or_nothing else share * kind.high
            built = named(name, size).applied_to(built)
        found.append(str(steady.solve(built, weather(outdoor)).state))
    assert found[1] == trip
    assert found[0] == trip


@METERING
@pytest.mark.parametrize(("one", "other", "mode"), WORST_PAIRS)
def test_the_worst_of_two_runs_or_trips_by_name(
    one: str, other: str, mode: str, metering: str
) -> None:
    """Half the charge behind a standing fan, heat called to a block of ice: energy balance."""
    built = catalogue.load_installation(metering=metering)
    for name in (one, other):
        built = named(name, discover()[name].high).applied_to(built)
    around = [weather(95.0), weather(110.0)] if mode == "cooling" else [winter(47.0), winter(20.0)]
    assert "no_solution" not in set(over(built, around).state)
