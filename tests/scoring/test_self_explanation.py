"""The first question of a debrief: about the trainee's own readings, held against the plant.

No outside source: how the question is chosen is this project's own promise.
"""

from pathlib import Path

import pytest

from simulator.scoring.self_explanation import NOTHING, QUIET, _seen, question
from tests.scoring.played import desk_for, do, go, good_capstone, hasty_capstone


def test_a_cause_that_was_not_so_is_asked_by_what_stood_still(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Charge was stated; pressures of a sound circuit do not move with leaking ducts."""
    desk = desk_for("mallorn", tmp_path, monkeypatch)
    hasty_capstone(desk)
    asked = question(desk.visit, desk._site)
    assert (
        asked["ask"]
        == "You stated: Low refrigerant charge. Why did liquid pressure not move, then?"
    )
    seen = {one.seq: one for one in _seen(desk.visit, desk._site)}
    assert abs(seen[asked["seq"]].moved) <= QUIET


def test_a_right_finding_is_asked_by_what_moved_most(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk = desk_for("mallorn", tmp_path, monkeypatch)
    good_capstone(desk)
    asked = question(desk.visit, desk._site)
    most = max(_seen(desk.visit, desk._site), key=lambda one: abs(one.moved))
    assert asked["seq"] == most.seq
    assert most.name in asked["ask"]


def test_without_readings_it_asks_for_the_first_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk = desk_for("mallorn", tmp_path, monkeypatch)
    do(desk, "declare", causes=["undercharge"], cited=[])
    do(desk, "close")
    assert question(desk.visit, desk._site) == {"ask": NOTHING, "seq": None}


def test_a_sound_house_is_asked_how_that_fits_the_complaint(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk = desk_for("dunsterville", tmp_path, monkeypatch)
    if not desk.visit.is_running:
        do(desk, "start")
        do(desk, "wait", minutes="20")
    go(desk, "return_grille", "", "grille_dry_bulb")
    do(desk, "declare", causes=["no_fault"], cited=[])
    do(desk, "close")
    assert question(desk.visit, desk._site)["ask"].startswith("The customer complained, and yet")
