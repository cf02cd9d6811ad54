"""A sound house: saying so, with readings, is the whole answer; mending it is harm."""

from dataclasses import replace
from pathlib import Path

import pytest

from simulator.calls.choice import NO_FAULT
from simulator.calls.sealed import Key, sealed
from simulator.scoring.scorecard import score
from simulator.serve.visits.visits import CallDesk
from tests.scoring.made import believing
from tests.scoring.played import desk_for, do, go, sheet


@pytest.fixture
def sound() -> Key:
    """The capstone's key with nothing wrong in it."""
    key = sealed("mallorn").opened()
    return replace(key, faults=(), causes={}, repairs={}, proof={}, story="Nothing was wrong.")


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> CallDesk:
    """A visit, just arrived."""
    return desk_for("mallorn", tmp_path, monkeypatch)


def points(desk: CallDesk, key: Key) -> dict[str, float]:
    """Points by part, where every reading spoke for a sound house."""
    sure = believing(desk.visit, {frozenset({NO_FAULT}): 1.0})
    card = score(desk.visit.events, key, sure)
    return {part.name: part.points for part in card.parts}


def test_saying_so_with_readings_is_the_answer(desk: CallDesk, sound: Key) -> None:
    go(
        desk,
        "outdoor_unit",
        "hazard_look_outdoor connect_gauges",
        "suction_pressure liquid_pressure",
    )
    go(desk, "air_handler", "hazard_look_air_handler drill_test_holes", "coil_airflow")
    go(desk, "registers", "", "register_sum")
    do(desk, "declare", causes=["no_fault"], cited=list(sheet(desk).values()))
    do(desk, "close")
    got = points(desk, sound)
    assert got["Evidence"] == 20.0
    assert got["Diagnosis"] == 15.0
    assert got["Repair and no harm"] == 8.0
    assert got["Re-test"] == 7.0


def test_mending_a_sound_house_is_harm(desk: CallDesk, sound: Key) -> None:
    do(desk, "declare", causes=["undercharge"], cited=[])
    do(desk, "repair", repair="add_refrigerant", amount="8")
    do(desk, "close")
    got = points(desk, sound)
    assert got["Diagnosis"] == 0.0
    assert got["Repair and no harm"] <= 2.0
    assert got["Re-test"] == 0.0
