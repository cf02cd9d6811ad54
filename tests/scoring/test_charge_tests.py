"""Charge tests that do not count: the debrief says why, and what would have made them count.

Airflow of 350 cfm per ton, 55 °F outdoors and 15 minutes of running: California Title 24 RA3.2.
"""

import secrets
from dataclasses import replace
from pathlib import Path

import pytest

from simulator.calls.events import Measured
from simulator.instruments.reading import Reading
from simulator.instruments.validity import AIRFLOW_PROOF, HOOD, UNPROVEN, charge_test_problems
from simulator.serve.visits.visits import CallDesk
from tests.scoring.played import desk_for, do, go

LUCK = 5  # of the visit; chosen so that the plate reads above 350
RATED = 0.5663  # 1200 cfm, 400 cfm per ton of 3 tons [m³/s]


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> CallDesk:
    """The capstone, just arrived; it runs and has long settled.

    The flow plate reads 357 cfm per ton of it, give or take 3 %, so the visit's luck is fixed.
    """
    monkeypatch.setattr(secrets, "randbits", lambda _: LUCK)
    return desk_for("mallorn", tmp_path, monkeypatch)


def gauges(desk: CallDesk) -> list[str]:
    """What the debrief says of the charge tests, after one pressure is read."""
    go(desk, "outdoor_unit", "connect_gauges", "outdoor_temperature suction_pressure")
    do(desk, "declare", causes=["no_fault"], cited=[])
    do(desk, "close")
    said: list[str] = desk.debrief("us")["debrief"]["invalid_charge_tests"]
    return said


def test_unproven_air_is_told_with_what_would_have_proven_it(desk: CallDesk) -> None:
    said = gauges(desk)
    assert UNPROVEN in said[0]
    assert "maker's table" in said[-1]
    assert "flow plate" in said[-1]
    # 350 cfm per ton of a 3-ton unit.
    assert "1,050 cfm" in said[-1] or "1050 cfm" in said[-1]
    # Its strips cannot be held on while it cools, so they are not offered.
    assert "strips" not in said[-1]


@pytest.mark.parametrize("test", ["table_airflow", "plate_airflow"])
def test_other_ways_prove_the_air_too(desk: CallDesk, test: str) -> None:
    go(desk, "air_handler", "hazard_look_air_handler drill_test_holes zero_manometer", test)
    assert gauges(desk) == []


def reading(name: str, value: float | None) -> Reading:
    """One airflow."""
    return Reading(measurement=name, technique="careful", kind="airflow", value=value)


def problems(*taken: Reading, start: float = 3600.0, outdoor: float = 300.0) -> list[str]:
    """Of a test after these readings."""
    air = Reading(
        measurement="outdoor_temperature", technique="careful", kind="temperature", value=outdoor
    )
    return charge_test_problems(
        [*taken, air], rated_airflow=RATED, seconds_since_start=start, seconds_since_charge=None
    )


@pytest.mark.parametrize("name", [*AIRFLOW_PROOF, HOOD])
def test_enough_air_by_any_way_is_valid(name: str) -> None:
    assert problems(reading(name, 0.9 * RATED)) == []


def test_a_low_sum_of_the_registers_proves_nothing_either_way() -> None:
    """Ducts may leak before the registers, so it is a lower bound alone."""
    assert problems(reading(HOOD, 0.7 * RATED)) == [UNPROVEN]
    assert problems(reading("coil_airflow", 0.9 * RATED), reading(HOOD, 0.7 * RATED)) == []


def test_a_take_that_came_to_nothing_undoes_no_proof() -> None:
    """Strips that cannot be held on give words in place of a number; what was proven stays so."""
    nothing = reading("strip_rise_airflow", None)
    assert problems(nothing) == [UNPROVEN]
    assert problems(reading("coil_airflow", 0.9 * RATED), nothing) == []


def test_too_little_air_is_told() -> None:
    assert problems(reading("plate_airflow", 0.8 * RATED)) == ["Airflow was below 350 cfm per ton."]


def test_too_cold_and_unsettled_are_told_in_the_debrief(desk: CallDesk) -> None:
    """The visit's own events, with the problems a cold morning and a fresh start bring."""
    enough = reading("coil_airflow", 0.9 * RATED)
    cold = problems(enough, start=300.0, outdoor=280.0)
    assert cold == [
        "It was colder than 55 °F outdoors.",
        "The system had not run for 15 minutes.",
    ]
    gauges(desk)
    desk._visit = replace(
        desk.visit,
        events=tuple(
            replace(e, problems=tuple(cold))
            if isinstance(e, Measured) and e.reading.measurement == "suction_pressure"
            else e
            for e in desk.visit.events
        ),
    )
    (said,) = desk.debrief("us")["debrief"]["invalid_charge_tests"]
    assert all(one in said for one in cold)
    assert "would have proven" not in said


def test_a_pressure_read_soon_after_a_start_is_named(desk: CallDesk) -> None:
    """Played: the system is stopped and started, and the gauges are read at once."""
    go(desk, "air_handler", "hazard_look_air_handler drill_test_holes zero_manometer")
    go(desk, "air_handler", "", "coil_airflow")
    do(desk, "stop")
    do(desk, "start")
    said = gauges(desk)
    assert any("had not run for 15 minutes" in line for line in said)


def test_a_winter_morning_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Played: a call in winter, its outdoor air read below 55 °F before the gauges."""
    said = gauges(desk_for("winterbourne", tmp_path, monkeypatch))
    assert any("colder than 55 °F" in line for line in said)
    # Here the strips can be held on alone.
    assert "strips' watts and rise" in said[-1]
