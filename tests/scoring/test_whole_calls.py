"""Whole calls: the good path is worth much, the hasty one little, luck in between."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from simulator.calls.choice import NO_FAULT
from simulator.calls.events import Declared, Measured
from simulator.calls.sealed import sealed
from simulator.calls.visit import fold
from simulator.diagnosis.causes import codes
from simulator.scoring.grounds import grounds, weather
from simulator.scoring.scorecard import score
from simulator.serve.visits.visits import CallDesk
from tests.scoring.played import (
    desk_for,
    do,
    go,
    good_capstone,
    hasty_capstone,
    lock_out,
    sheet,
    told,
    told_whole,
)


@pytest.fixture
def capstone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> CallDesk:
    """The capstone, just arrived."""
    return desk_for("mallorn", tmp_path, monkeypatch)


def number(text: str) -> float:
    """A printed number."""
    return float(text.lstrip("$").replace(",", "").replace("\N{MINUS SIGN}", "-"))


def row(debrief: dict[str, Any], part: str, name: str) -> dict[str, Any]:
    """One row of a table in the debrief."""
    return next(row for row in debrief[part] if row["name"] == name)


def test_the_good_path_is_worth_nearly_all(capstone: CallDesk) -> None:
    good_capstone(capstone)
    debrief = told_whole(capstone)
    assert debrief["total"] >= 95, debrief["parts"]
    assert debrief["harm"] == []
    assert "collar" in debrief["what_was_true"]


def test_the_hasty_path_is_graded_low_and_its_harm_named(capstone: CallDesk) -> None:
    hasty_capstone(capstone)
    debrief = told_whole(capstone)
    assert debrief["total"] <= 15, debrief["parts"]
    assert any("before the air was proven" in text for text in debrief["harm"])
    assert any("Airflow was not proven" in text for text in debrief["invalid_charge_tests"])
    retest = row(debrief, "parts", "Re-test")
    assert retest["points"] == 0


def test_luck_is_worth_little(capstone: CallDesk) -> None:
    do(capstone, "declare", causes=["supply_leak", "return_leak"], cited=[])
    do(capstone, "close")
    parts = {part["name"]: part for part in told_whole(capstone)["parts"]}
    earned = parts["Diagnosis"]["points"] + parts["Evidence"]["points"]
    assert earned <= 0.4 * (parts["Diagnosis"]["of"] + parts["Evidence"]["of"])


def test_a_finding_without_a_reading_is_a_guess_and_said_so(capstone: CallDesk) -> None:
    do(capstone, "declare", causes=["supply_leak", "return_leak"], cited=[])
    do(capstone, "close")
    why = next(p for p in told_whole(capstone)["parts"] if p["name"] == "Evidence")["because"][0]
    assert why["text"].startswith("A guess")
    assert why["seq"] == capstone.visit.finding.seq


def test_an_unsafe_repair_caps_the_whole(capstone: CallDesk) -> None:
    do(capstone, "declare", causes=["supply_leak"], cited=[])
    do(capstone, "stop")
    do(capstone, "repair", repair="seal_supply", amount=None)
    do(capstone, "close")
    debrief = told_whole(capstone)
    assert debrief["total"] <= 40
    assert any("Unsafe" in why["text"] for part in debrief["parts"] for why in part["because"])


def test_capstone_gauges_look_healthy_and_the_rooms_do_not(capstone: CallDesk) -> None:
    """Superheat and subcooling within instrument error; a quarter and more of the cooling lost."""
    good_capstone(capstone)
    debrief = told(capstone)
    for name, error in (("Superheat", 2.0), ("Subcooling", 2.0)):
        line = row(debrief, "before_after", name)
        assert abs(number(line["found"]) - number(line["healthy"])) <= error
    rooms = row(debrief, "before_after", "Cooling that reaches the rooms")
    assert number(rooms["found"]) <= 0.75 * number(rooms["healthy"])
    coil = row(debrief, "before_after", "Cooling at the coil")
    assert number(coil["found"]) > number(coil["healthy"])


def test_repaired_the_readings_run_time_and_bill_recover(capstone: CallDesk) -> None:
    good_capstone(capstone)
    debrief = told(capstone)
    for line in debrief["before_after"]:
        assert number(line["left"]) == pytest.approx(number(line["healthy"]), rel=0.01, abs=0.11)
    runs = row(debrief, "bill", "Share of the day it runs")
    assert number(runs["left"]) < 0.8 * number(runs["found"])
    cost = row(debrief, "bill", "Cooling costs, a month of such days")
    assert number(cost["left"]) < 0.8 * number(cost["found"])


def test_pairs_stand_in_the_debrief(capstone: CallDesk) -> None:
    good_capstone(capstone)
    pair = next(p for p in told(capstone)["pairs"] if "registers" in p["name"].lower())
    assert number(pair["after"]["shown"]) > number(pair["before"]["shown"])


def test_strips_call_is_found_at_the_panel(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    desk = desk_for("rooke", tmp_path, monkeypatch)
    go(desk, "customer", "consent", "ask_when ask_changed ask_touched ask_rooms read_bill")
    do(desk, "start")
    go(desk, "return_grille", "match_probes", "grille_dry_bulb")
    go(desk, "air_handler", "hazard_look_air_handler", "look_filter")
    do(desk, "wait", minutes="15")
    go(desk, "registers", "", "near_register_temperature")
    go(desk, "electrical_panel", "prove_meter", "air_handler_current strip_current voltage")
    cited = [sheet(desk)["air_handler_current"], sheet(desk)["strip_current"]]
    do(desk, "declare", causes=["strips_on"], cited=cited)
    do(desk, "stop")
    lock_out(desk, "replace_sequencer")
    do(desk, "repair", repair="replace_sequencer", amount=None)
    do(desk, "start")
    do(desk, "wait", minutes="16")
    go(desk, "electrical_panel", "", "air_handler_current strip_current")
    do(
        desk,
        "write_up",
        text="A strip stayed on whenever the blower ran: 22 amps at the air handler where 2 are "
        "right. The sequencer is replaced and the strips read 0 amps over a full cycle. The next "
        "bill should show it; call if the smell comes back.",
    )
    do(desk, "close")
    assert told_whole(desk)["total"] >= 80, told_whole(desk)["parts"]


def test_the_scorecard_is_pure(capstone: CallDesk) -> None:
    good_capstone(capstone)
    key = sealed("mallorn").opened()
    found = grounds(capstone.visit, capstone._site)
    assert score(capstone.visit.events, key, found) == score(capstone.visit.events, key, found)


def test_naming_every_cause_does_not_pass(capstone: CallDesk) -> None:
    good_capstone(capstone)
    key, everything = sealed("mallorn").opened(), tuple(sorted(codes() - {NO_FAULT}))
    events = [
        replace(event, causes=everything) if isinstance(event, Declared) else event
        for event in capstone.visit.events
    ]
    found = grounds(capstone.visit, capstone._site)
    assert score(events, key, found).total < 70
    assert score(events, key, found).total < score(capstone.visit.events, key, found).total - 25


def test_a_pair_needs_both_readings_settled(capstone: CallDesk) -> None:
    good_capstone(capstone)
    key = sealed("mallorn").opened()
    hurried = [
        replace(event, settled=1.0) if isinstance(event, Measured) else event
        for event in capstone.visit.events
    ]
    retest = next(
        part
        for part in score(hurried, key, weather(fold(hurried), capstone._site)).parts
        if part.name == "Re-test"
    )
    assert retest.points == 0


def test_no_debrief_before_the_end(capstone: CallDesk) -> None:
    assert set(capstone.debrief("us")) == {"problem"}
