"""Odds in the debrief: they rise with good readings, use nothing sealed, and end at the repair.

Bands of 10 to 1 and 30 to 1: the rubric's own, for repairs that can and cannot be undone.
"""

from pathlib import Path
from typing import Any

import pytest

from simulator.scoring.odds import band
from simulator.serve.visits import CallDesk
from tests.scoring.played import desk_for, do, good_capstone, hasty_capstone


@pytest.fixture
def capstone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> CallDesk:
    """The capstone, just arrived."""
    return desk_for("mallorn", tmp_path, monkeypatch)


def steps(desk: CallDesk) -> list[dict[str, Any]]:
    """Steps of the timeline that carry odds."""
    steps = desk.debrief("us")["debrief"]["timeline"]
    odds = desk.odds()["odds"]
    return [{**step, "odds": odds[str(step["seq"])]} for step in steps if str(step["seq"]) in odds]


@pytest.mark.parametrize(
    ("odds", "says"),
    [(2.0, "30 to 1"), (1.1, "10 to 1"), (0.6, "suspicion"), (0.0, "even"), (-1.0, "likelier")],
)
def test_bands(odds: float, says: str) -> None:
    assert says in band(odds)


def test_good_readings_raise_the_odds_and_the_repair_ends_them(capstone: CallDesk) -> None:
    good_capstone(capstone)
    told = steps(capstone)
    assert told[0]["odds"]["share"] < 0.2
    assert told[-1]["odds"]["share"] > 0.9
    assert "30 to 1" in [step["odds"]["words"] for step in told if step["odds"]["words"]][-1]
    assert told[-1]["seq"] < capstone.visit.repairs[0].seq


def test_hasty_readings_do_not(capstone: CallDesk) -> None:
    hasty_capstone(capstone)
    assert steps(capstone)[-1]["odds"]["share"] < 0.5


def test_the_best_reading_is_one_that_was_taken(capstone: CallDesk) -> None:
    good_capstone(capstone)
    turns = capstone.odds()["turns"]
    taken = {event.seq for event in capstone.visit.readings}
    assert turns[0]["text"].startswith("Your best reading")
    assert {turn["seq"] for turn in turns} <= taken


def test_nothing_taken_has_no_turns(capstone: CallDesk) -> None:
    do(capstone, "declare", causes=["no_fault"], cited=[])
    do(capstone, "close")
    assert capstone.odds()["turns"] == []


def test_an_open_visit_tells_no_odds(capstone: CallDesk) -> None:
    assert set(capstone.odds()) == {"problem"}
