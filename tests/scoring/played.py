"""Whole visits played by message, through the same door the browser uses."""

from pathlib import Path
from typing import Any

import pytest

from simulator.serve import visits
from simulator.serve.visits import CallDesk


def desk_for(call: str, folder: Path, monkeypatch: pytest.MonkeyPatch) -> CallDesk:
    """A fresh visit in records of its own."""
    monkeypatch.setenv("BENCHCALL_DATA", str(folder))
    visits.records.cache_clear()
    return visits.open_desk(visits.start_visit(call, "trainee-of-the-tests"))


def do(desk: CallDesk, what: str, **rest: Any) -> dict[str, Any]:
    """One message that must be carried out."""
    answer = desk.act({"do": what, "units": "us", **rest})
    assert "problem" not in answer, answer.get("problem")
    return answer


def go(desk: CallDesk, place: str, steps: str = "", tests: str = "") -> None:
    """Walk somewhere, prepare, measure."""
    if desk.visit.place != place:
        do(desk, "go", place=place)
    for step in steps.split():
        do(desk, "prepare", step=step)
    for test in tests.split():
        do(desk, "measure", test=test, technique="careful")


def sheet(desk: CallDesk) -> dict[str, int]:
    """Number of the newest reading of each measurement."""
    return {e.reading.measurement: e.seq for e in desk.visit.readings}


def good_capstone(desk: CallDesk) -> None:
    """One good path of many."""
    go(
        desk,
        "customer",
        "consent",
        "ask_when ask_changed ask_touched ask_rooms read_bill read_history",
    )
    go(desk, "return_grille", "match_probes", "grille_dry_bulb grille_wet_bulb house_pressure")
    go(
        desk,
        "air_handler",
        "hazard_look_air_handler drill_test_holes zero_manometer",
        "look_filter look_slot smoke_return return_dry_bulb return_wet_bulb supply_dry_bulb "
        "return_zone_temperature static_before_filter static_after_filter static_supply "
        "coil_airflow",
    )
    go(desk, "registers", "", "register_sum")
    go(desk, "zone", "hazard_look_zone", "look_ducts smoke_supply")
    cited = [
        sheet(desk)[name]
        for name in (
            "house_pressure", "look_slot", "smoke_return", "return_dry_bulb", "grille_dry_bulb",
            "coil_airflow", "register_sum", "look_ducts", "smoke_supply",
        )
    ]  # fmt: skip
    do(desk, "declare", causes=["supply_leak", "return_leak"], cited=cited)
    do(desk, "stop")
    do(desk, "repair", repair="seal_supply", amount=None)
    do(desk, "repair", repair="seal_return", amount=None)
    do(desk, "start")
    do(desk, "wait", minutes="20")
    go(desk, "registers", "", "register_sum")
    go(desk, "return_grille", "", "house_pressure")
    go(desk, "air_handler", "", "return_dry_bulb coil_airflow")
    do(
        desk,
        "write_up",
        text="The supply collar in the attic was half off and the platform return was open to the "
        "garage. Both are refitted and sealed. The registers now give 97 percent of the coil's "
        "air instead of 76, and the house pressure is back near 0 Pa. Charge was not touched. "
        "Please have the water heater's draught checked; watch the next bill.",
    )
    do(desk, "close")


def hasty_capstone(desk: CallDesk) -> None:
    """Gauges first, refrigerant added, no re-test."""
    go(desk, "outdoor_unit", "connect_gauges", "suction_pressure liquid_pressure")
    do(desk, "declare", causes=["undercharge"], cited=[sheet(desk)["suction_pressure"]])
    do(desk, "repair", repair="add_refrigerant", amount="8")
    do(desk, "write_up", text="Topped off, cooling fine.")
    do(desk, "close")
