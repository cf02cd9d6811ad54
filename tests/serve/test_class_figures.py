"""The table of a class: bars held against the value, or against hello pages."""

import argparse

import pytest

from simulator.serve.commands.bench import trainees
from simulator.serve.commands.timing.figures import Figure, as_data, class_table

SLOW = Figure(name="last", what="the last", value=8.0, unit="s", floor=10.0, most=0.75)
LIGHT = Figure(name="memory", what="memory", value=33.0, unit="MB", most=50)
TOLD = Figure(name="told", what="told", value=3.0, unit="ms")


def test_a_bar_is_held_against_the_floor_where_there_is_one() -> None:
    assert SLOW.compared == pytest.approx(0.8)
    assert SLOW.is_met is False
    assert LIGHT.is_met is True
    assert TOLD.is_met is None


def test_people_and_programs_are_told_the_same() -> None:
    table = class_table([SLOW, LIGHT, TOLD])
    assert "| the last | 8.00 s | 10.00 s | 0.80 | ≤ 0.75 × hello | no |" in table
    assert "| memory | 33.0 MB |  |  | ≤ 50 MB | yes |" in table
    assert "| told | 3 ms |  |  |  |  |" in table
    data = as_data([SLOW, TOLD])
    assert data["last"]["met"] is False
    assert data["last"]["ratio"] == pytest.approx(0.8)
    assert data["told"]["met"] is None


def test_a_class_has_room_on_the_bench() -> None:
    assert trainees("30") == 30
    for typed in ("1", "36", "x", "-3"):
        with pytest.raises(argparse.ArgumentTypeError):
            trainees(typed)
