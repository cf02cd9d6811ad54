"""What cited readings could show, and which settled readings stand outside the healthy band.

No outside source: the bands are the project's own, what a good tool tells from healthy.
"""

from pathlib import Path

import pytest

from simulator.instruments.measurements import MEASUREMENTS
from simulator.scoring.bearing import could_show
from simulator.scoring.three_states import mark
from tests.scoring.played import desk_for, good_capstone, hasty_capstone


def test_suction_pressure_alone_tells_no_causes_apart() -> None:
    said = could_show("suction_pressure")
    assert "low: " in said
    assert "could not tell" in said


@pytest.mark.parametrize("name", sorted(MEASUREMENTS))
def test_every_measurement_has_its_sentence(name: str) -> None:
    said = could_show(name)
    assert said.startswith(MEASUREMENTS[name].name)
    assert "could" in said or "bears on no single cause" in said


def test_the_debrief_names_each_cited_reading(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk = desk_for("mallorn", tmp_path, monkeypatch)
    hasty_capstone(desk)
    assert desk.visit.finding is not None
    told = desk.debrief("us")["debrief"]["cited"]
    assert [one["seq"] for one in told] == list(desk.visit.finding.cited)


@pytest.mark.parametrize(
    ("value", "healthy", "kind", "said"),
    [
        (2.2, 2.0, "current", "high"),  # an air handler 10 % high
        (2.04, 2.0, "current", ""),
        (1.8, 2.0, "current", "low"),
        (7.0, 5.0, "temperature_difference", "high"),
        (5.5, 5.0, "temperature_difference", ""),
        (-1.5, 0.0, "house_pressure", "low"),
    ],
)
def test_marks(value: float, healthy: float, kind: str, said: str) -> None:
    assert mark(value, healthy, kind) == said


def test_marks_stand_in_the_table_and_go_with_the_repair(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk = desk_for("mallorn", tmp_path, monkeypatch)
    good_capstone(desk)
    rows = {row["name"]: row for row in desk.debrief("us")["debrief"]["before_after"]}
    assert rows["Sum of the registers"]["found_mark"] == "low"
    assert rows["Cooling that reaches the rooms"]["found_mark"] == "low"
    assert {row["left_mark"] for row in rows.values()} == {""}
