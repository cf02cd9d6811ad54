"""What is said before it is too late: preparations, repairs, pairs, closing."""

import re
from pathlib import Path
from typing import Any

import pytest

from simulator.calls import events
from simulator.calls.repair_terms import PLACES_OF_REPAIRS, WALK
from simulator.calls.sheet import time_of_day
from simulator.calls.worked_view import doubt
from simulator.instruments.places import PLACES
from simulator.instruments.reading import Reading
from simulator.instruments.session import Session
from simulator.instruments.step_findings import DONE, found, probe_difference
from simulator.instruments.steps import STEPS
from simulator.repairs import _catalogue as repairs
from simulator.serve.visits.visits import CallDesk
from tests.scoring.played import desk_for, do, go


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> CallDesk:
    """The capstone, just arrived, running."""
    return desk_for("mallorn", tmp_path, monkeypatch)


def value(desk: CallDesk) -> float:
    """The newest reading. [SI]"""
    shown = desk.visit.readings[-1].reading.value
    assert shown is not None
    return shown


def measured(seq: int, name: str, minute: float, settled: float) -> events.Measured:
    """A reading as the sheet holds it."""
    reading = Reading(measurement=name, technique="careful", kind="temperature", value=290.0)
    return events.Measured(seq=seq, minute=minute, reading=reading, place="outdoor_unit",
                           is_running=True, settled=settled)  # fmt: skip


def test_every_preparation_says_what_it_found(desk: CallDesk) -> None:
    # Long hoses go on instead of the probes; test_traces.py has them.
    careful = [step for step in STEPS.values() if step.stands_for is None]
    for place in PLACES:
        go(desk, place, " ".join(step.id for step in careful if step.place == place))
    told = desk.view("us")["found"]
    assert set(told) == {step.id for step in careful}
    assert all(text.endswith(".") and text != DONE for text in told.values())
    assert "water heater" in told["hazard_look_air_handler"]  # the work order names it


def test_the_difference_of_the_probes_is_the_one_in_the_readings(desk: CallDesk) -> None:
    # Two takes of one probe, before and after comparing, differ by its own part of the offset;
    # the noise of a take is 0.05 K, five of it for two takes. Own tool data, tools.py.
    go(desk, "air_handler", "drill_test_holes")
    names, taken = ("return_dry_bulb", "supply_dry_bulb"), {}
    for when in ("before", "after"):
        for name in names:
            do(desk, "measure", test=name, technique="careful")
            taken[name, when] = value(desk)
        if when == "before":
            go(desk, "return_grille", "match_probes")
            do(desk, "go", place="air_handler")
    offset = [taken[name, "before"] - taken[name, "after"] for name in names]
    session = Session.of_visit(desk._site.seed)
    assert probe_difference(session) == pytest.approx(offset[0] - offset[1], abs=0.35)
    said = desk.view("us")["found"]["match_probes"]
    printed = re.search(r"by ([\d.]+) (?:delta )?°F", said)
    assert printed
    assert float(printed[1]) == pytest.approx(abs(probe_difference(session)) * 1.8, abs=0.06)


def test_the_tools_of_a_visit_are_those_of_its_readings(desk: CallDesk) -> None:
    assert Session.of_visit(desk._site.seed) == Session.drawn(desk._site._chance(1))
    assert found("a step of the future", None) == DONE  # type: ignore[arg-type]


def test_every_repair_has_its_place() -> None:
    assert set(repairs.discover()) <= set(PLACES_OF_REPAIRS)
    assert set(PLACES_OF_REPAIRS.values()) <= set(PLACES)


def test_a_repair_walks_to_its_place_and_the_minutes_are_told_first(desk: CallDesk) -> None:
    row = next(r for r in desk.view("us")["repairs"] if r["code"] == "seal_supply")
    assert (row["walk"], row["power"]) == (WALK, "system off")
    assert "Stop the system first" in row["blocked"]
    do(desk, "stop")
    row = next(r for r in desk.view("us")["repairs"] if r["code"] == "seal_supply")
    assert row["blocked"] is None
    start = desk.visit.minute
    do(desk, "repair", repair="seal_supply", amount=None)
    assert desk.visit.place == "zone"
    assert desk.visit.minute == start + row["walk"] + row["minutes"]
    assert isinstance(desk.visit.events[-2], events.Moved)
    again = next(r for r in desk.view("us")["repairs"] if r["code"] == "seal_supply")
    assert again["walk"] == 0.0


def test_readings_far_apart_or_unsteady_are_marked() -> None:
    # 15 minutes: California Title 24 RA3.2.
    near = [measured(1, "suction_pressure", 40.0, 60.0),
            measured(2, "suction_line_temperature", 50.0, 70.0)]  # fmt: skip
    assert doubt(near) == ""
    far = [near[0], measured(2, "suction_line_temperature", 56.0, 76.0)]
    assert doubt(far) == "taken 16 min apart"
    early = [measured(1, "suction_pressure", 40.0, 8.0), near[1]]
    assert doubt(early) == "taken 10 min apart; not steady: suction pressure"


def test_worked_out_values_show_the_minutes_of_their_readings(desk: CallDesk) -> None:
    go(desk, "outdoor_unit", "connect_gauges", "suction_pressure")
    do(desk, "wait", minutes="60")
    do(desk, "measure", test="suction_line_temperature", technique="careful")
    row = next(r for r in desk.view("us")["worked_out"] if r["name"] == "Superheat")
    assert row["minutes"][0] - row["minutes"][1] >= 60
    assert row["doubt"].startswith("taken 6")


def pair(desk: CallDesk, name: str) -> dict[str, Any]:
    """One line of before and after."""
    rows: list[dict[str, Any]] = desk.view("us")["pairs"]
    return next(row for row in rows if row["name"] == name)


def test_a_pair_taken_with_the_system_off_is_no_proof(desk: CallDesk) -> None:
    go(desk, "registers", "", "near_register_temperature")
    do(desk, "stop")
    do(desk, "repair", repair="seal_supply", amount=None)
    name = "Nearest register"
    assert pair(desk, name)["is_proof"] is False
    go(desk, "registers", "", "near_register_temperature")
    off = pair(desk, name)
    assert (off["is_proof"], off["after"]["steadiness"]) == (False, "system off")
    assert "after was taken with the system off" in off["note"]
    do(desk, "start")
    do(desk, "measure", test="near_register_temperature", technique="careful")
    assert "min after a change" in pair(desk, name)["note"]
    do(desk, "wait", minutes="20")
    do(desk, "measure", test="near_register_temperature", technique="careful")
    assert pair(desk, name)["is_proof"] is True
    assert pair(desk, name)["note"] == "Both steady."


def test_leaving_names_what_is_missing_until_it_is_there(desk: CallDesk) -> None:
    go(desk, "air_handler", "drill_test_holes", "return_dry_bulb")
    do(desk, "stop")
    do(desk, "repair", repair="replace_filter", amount=None)
    said = desk.view("us")["leaving"]
    for words in ("No finding", "measured again", "write-up", "system is off"):
        assert sum(words in text for text in said["missing"]) == 1
    assert any("test holes" in text for text in said["see_to"])
    assert any("air handler" in text for text in said["see_to"])
    do(desk, "start")
    do(desk, "measure", test="return_dry_bulb", technique="careful")
    assert any("steady both times" in text for text in desk.view("us")["leaving"]["missing"])
    do(desk, "wait", minutes="20")
    do(desk, "measure", test="return_dry_bulb", technique="careful")
    do(desk, "declare", causes=["no_fault"], cited=[])
    do(desk, "write_up", text="A new filter.")
    assert desk.view("us")["leaving"]["missing"] == []
    do(desk, "close")
    assert desk.view("us")["leaving"] == {"missing": [], "see_to": []}


def test_the_clock_of_the_site_and_the_office_after_four_hours(desk: CallDesk) -> None:
    assert desk.view("us")["visit"]["clock"] == "13:30"  # arrival at 13.5 h, the call's own file
    assert time_of_day(desk._site, 64.6) == "14:35"
    assert time_of_day(desk._site, 630.0) == "0:00"
    do(desk, "wait", minutes="120")
    do(desk, "wait", minutes="120")
    assert desk.view("us")["visit"]["remark"] is None
    do(desk, "wait", minutes="1")
    assert "dispatcher" in desk.view("us")["visit"]["remark"]
