"""The debrief: short first, every point tied to an event, places by the names of this house.

No outside source: the bars are the rubric's own aims, that leaving early is no economy and that
nobody is careful by staying away.
"""

import re
from pathlib import Path
from typing import Any

import pytest

from simulator.calls.sealed import sealed
from simulator.scoring.debrief import LIMIT
from simulator.scoring.next_time import NEXT_TIME
from simulator.serve.visits.visits import CallDesk
from tests.scoring.played import (
    desk_for,
    do,
    go,
    good_capstone,
    graded,
    hasty_capstone,
    sheet,
    told,
    told_whole,
)

Part = dict[str, Any]


@pytest.fixture
def capstone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> CallDesk:
    """The capstone, just arrived."""
    return desk_for("mallorn", tmp_path, monkeypatch)


def parts(desk: CallDesk) -> dict[str, Part]:
    """Parts by name."""
    return {part["name"]: part for part in told_whole(desk)["parts"]}


def step_behind(debrief: dict[str, Any], part: str, begins: str) -> str:
    """What the timeline tells of the event a reason points at."""
    reasons = next(p["because"] for p in debrief["parts"] if p["name"] == part)
    seq = next(why["seq"] for why in reasons if why["text"].startswith(begins))
    return str(next(step["text"] for step in debrief["timeline"] if step["seq"] == seq))


@pytest.mark.parametrize("play", [good_capstone, hasty_capstone])
def test_every_reason_points_into_the_timeline(capstone: CallDesk, play: Any) -> None:
    play(capstone)
    debrief = told_whole(capstone)
    steps = {step["seq"] for step in debrief["timeline"]}
    reasons = [why for part in debrief["parts"] for why in part["because"]]
    assert len(reasons) >= 15
    assert all(why["seq"] in steps for why in reasons + debrief["in_short"])


def test_reasons_point_at_the_act_they_are_about(capstone: CallDesk) -> None:
    good_capstone(capstone)
    debrief = told_whole(capstone)
    for part, begins, step in (
        ("Interview and complaint", "You told the customer", "Explain what you will do"),
        ("Measuring", "You compared your probes", "Hold all temperature probes"),
        ("Evidence", "Your readings carry", "Finding:"),
        ("Re-test", "Before and after, settled: Flow of all", "Flow of all registers"),
        ("Re-test", "Before and after, settled: House", "House pressure"),
        ("Customer and record", "A write-up", "Wrote to the customer"),
    ):
        assert step in step_behind(debrief, part, begins), (part, begins)
    # And each reading and repair says what it was.
    acted = {str(e.seq) for e in (*capstone.visit.readings, *capstone.visit.repairs)}
    assert debrief["acts"].keys() <= acted
    assert len(debrief["acts"]) >= 20


def test_a_second_reading_is_behind_a_pair(capstone: CallDesk) -> None:
    good_capstone(capstone)
    why = next(
        why for why in parts(capstone)["Re-test"]["because"] if "registers" in why["text"].lower()
    )
    assert why["seq"] == sheet(capstone)["register_sum"]
    assert why["seq"] > capstone.visit.repairs[-1].seq


def test_three_sentences_stand_first(capstone: CallDesk) -> None:
    hasty_capstone(capstone)
    debrief = told_whole(capstone)
    short = [line["text"] for line in debrief["in_short"]]
    assert len(short) == 3
    assert short[0].startswith("You did not find what was true: Supply duct leaking")
    assert "before the air was proven" in short[1]
    assert short[2] == NEXT_TIME["Evidence"]


def test_the_three_sentences_of_a_good_visit(capstone: CallDesk) -> None:
    good_capstone(capstone)
    short = [line["text"] for line in told_whole(capstone)["in_short"]]
    assert short[0].startswith("You found what was true: Supply duct leaking")
    assert short[1] == "All of it was mended, and no harm was done."
    assert short[2] == "No part lost a point."


def test_no_part_is_without_its_next_time(capstone: CallDesk) -> None:
    """And none of the three sentences is about the person or gives a number of points."""
    hasty_capstone(capstone)
    assert set(parts(capstone)) - {LIMIT} == set(NEXT_TIME)
    for line in told_whole(capstone)["in_short"]:
        assert not re.search(r"\bof 100\b|points|better than|worse than|others", line["text"])


def test_places_are_called_as_in_this_house(capstone: CallDesk) -> None:
    good_capstone(capstone)
    steps = [step["text"] for step in told(capstone)["timeline"]]
    assert "To: attic, supply trunk and branches." in steps
    assert "To: air handler, garage closet." in steps
    assert not any("space around the ducts" in step for step in steps)


def test_a_pair_that_proves_nothing_says_why(capstone: CallDesk) -> None:
    hasty = "Not counted as proof: the one after was taken less than 15 min after a change."
    go(capstone, "return_grille", "", "grille_wet_bulb")
    do(capstone, "declare", causes=["supply_leak"], cited=[])
    do(capstone, "stop")
    do(capstone, "repair", repair="seal_supply", amount=None)
    do(capstone, "start")
    go(capstone, "return_grille", "", "grille_wet_bulb")
    do(capstone, "close")
    (pair,) = (p for p in told(capstone)["pairs"] if p["name"].startswith("Return wet bulb"))
    assert pair["note"] == hasty


def test_doing_nothing_earns_nothing_for_safety_or_time(capstone: CallDesk) -> None:
    do(capstone, "declare", causes=["no_fault"], cited=[])
    do(capstone, "close")
    got = parts(capstone)
    assert got["Safety"]["points"] == 0.0
    assert got["Efficiency"]["points"] == 0.0
    assert told_whole(capstone)["total"] <= 15


def test_questions_alone_save_no_time(capstone: CallDesk) -> None:
    questions = "ask_when ask_changed ask_touched ask_rooms read_bill read_history"
    go(capstone, "customer", "consent", questions)
    do(capstone, "declare", causes=["undercharge"], cited=list(sheet(capstone).values()))
    do(capstone, "close")
    got = parts(capstone)
    assert got["Safety"]["points"] == 0.0
    assert got["Efficiency"]["points"] == 0.0


def test_a_hasty_visit_earns_nothing_for_safety_or_time(capstone: CallDesk) -> None:
    hasty_capstone(capstone)
    got = parts(capstone)
    assert got["Safety"]["points"] == 0.0
    assert got["Efficiency"]["points"] == 0.0


def test_a_hazard_met_earns_its_share_of_what_was_due(capstone: CallDesk) -> None:
    """Of the hazards due, the outdoor unit's 2 points of 7 were met; the part is of 12."""
    go(capstone, "outdoor_unit", "hazard_look_outdoor connect_gauges", "suction_pressure")
    do(capstone, "declare", causes=["no_fault"], cited=[])
    do(capstone, "close")
    hazards = {hazard.step: hazard.points for hazard in sealed("mallorn").opened().hazards}
    due = hazards["hazard_look_outdoor"] + hazards["hazard_look_air_handler"]
    whole = sum(hazards.values())
    earned = whole * hazards["hazard_look_outdoor"] / due
    assert parts(capstone)["Safety"]["points"] == pytest.approx(earned, abs=0.05)


def test_a_hazard_never_approached_costs_nothing(capstone: CallDesk) -> None:
    """The good path never opens the electrical panel nor touches the outdoor unit."""
    good_capstone(capstone)
    safety = parts(capstone)["Safety"]
    assert safety["points"] == safety["of"] == 12.0


def test_the_rubric_has_its_sixth_version(capstone: CallDesk) -> None:
    hasty_capstone(capstone)
    assert graded(capstone, sealed("mallorn").opened()).version == "7"


def test_consent_left_out_is_named_among_the_points(capstone: CallDesk) -> None:
    hasty_capstone(capstone)
    parts = capstone.debrief("us")["debrief"]["parts"]
    told = [why["text"] for why in next(p for p in parts if p["of"] == 8)["because"]]
    assert any("what you would do and where" in text for text in told)
