"""Whole visits played by message, through the same door the browser uses."""

from pathlib import Path
from typing import Any

import pytest

from simulator.calls.repair_terms import LOCKED_OUT
from simulator.calls.sealed import Key
from simulator.diagnosis.belief import standing, standings
from simulator.diagnosis.cleared import ASKED_FOR, cleared
from simulator.diagnosis.evidence import evidence
from simulator.diagnosis.next_reading import next_readings
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.places import PLACES
from simulator.instruments.steps import STEPS
from simulator.scoring.carried import ENOUGH_FOR_COSTLY
from simulator.scoring.grounds import grounds
from simulator.scoring.scorecard import Scorecard, score
from simulator.scoring.truth import shares
from simulator.serve.visits import visits
from simulator.serve.visits.visits import CallDesk
from tests.scoring.made import sizes_of


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


def graded(desk: CallDesk, key: Key) -> Scorecard:
    """What a closed visit was worth, with its odds."""
    return score(desk.visit.events, key, grounds(desk.visit, desk._site))


def told(desk: CallDesk) -> dict[str, Any]:
    """The debrief as it opens."""
    answer = desk.debrief("us")
    assert "problem" not in answer
    found: dict[str, Any] = answer["debrief"]
    return found


def told_whole(desk: CallDesk) -> dict[str, Any]:
    """The debrief with what comes some seconds later."""
    return {**told(desk), **desk.odds()}


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
    mark_cleared(desk)
    sizes = ["slight", "slight"]
    do(desk, "declare", causes=["supply_leak", "return_leak"], cited=cited, sizes=sizes)
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


def mark_cleared(desk: CallDesk) -> None:
    """What the readings have ruled out, marked so."""
    events, call = desk.visit.events, desk._site.call
    first, now = standings(events[:1], call)[0].belief, standings(events, call)[-1].belief
    for cause in cleared(first, now)[:ASKED_FOR]:
        do(desk, "mark", cause=cause, **{"as": "ruled_out"})


def hasty_capstone(desk: CallDesk) -> None:
    """Gauges first, refrigerant added, no re-test."""
    go(desk, "outdoor_unit", "connect_gauges", "suction_pressure liquid_pressure")
    do(desk, "declare", causes=["undercharge"], cited=[sheet(desk)["suction_pressure"]])
    do(desk, "repair", repair="add_refrigerant", amount="8")
    do(desk, "write_up", text="Topped off, cooling fine.")
    do(desk, "close")


def take_all(desk: CallDesk, tests: set[str]) -> None:
    """Walk round once and take what is asked, each place made safe and ready first."""
    chosen = [item for item in MEASUREMENTS.values() if item.id in tests]
    # What must be done elsewhere first, such as proving the meter.
    away = [(STEPS[need].place, need, item.place) for item in chosen for need in item.needs]
    for place, step, measured_at in away:
        if place != measured_at and step not in desk.visit.prepared:
            go(desk, place, step)
    for place in PLACES:
        here = [item for item in chosen if item.place == place]
        if not here:
            continue
        if desk.visit.place != place:
            do(desk, "go", place=place)
        hazards = [step for step in STEPS if step.startswith(("hazard", "prove"))]
        for step in (*hazards, *(need for item in here for need in item.needs)):
            if STEPS[step].place == place and step not in desk.visit.prepared:
                do(desk, "prepare", step=step)
        for item in here:
            best = item.techniques[0].id if item.techniques else "careful"
            do(desk, "measure", test=item.id, technique=best)


MOST_MORE = 12  # readings until it is sure [-]


def make_sure(desk: CallDesk, true: frozenset[str]) -> None:
    """Take what tells most a minute until what is true stands 30 to 1 before its best rival."""
    call = desk._site.call
    for _ in range(MOST_MORE):
        now = standing(desk.visit, call)
        if now.belief.odds(true) >= ENOUGH_FOR_COSTLY:
            break
        best = next_readings(now, desk.visit, call)[0]
        if best.is_running != desk.visit.is_running:
            do(desk, "start" if best.is_running else "stop")
            do(desk, "wait", minutes="15")
        take_all(desk, {best.measurement})
    if not desk.visit.is_running:
        do(desk, "start")
        do(desk, "wait", minutes="15")


def mend(desk: CallDesk, key: Key) -> None:
    """The first repair of each cause, made safe."""
    for codes in key.repairs.values():
        if codes[0] in {event.repair for event in desk.visit.repairs}:
            continue  # one act may mend two causes
        if desk.visit.is_running:
            do(desk, "stop")
        for hazard in key.hazards:
            if codes[0] in hazard.repairs and hazard.step not in desk.visit.prepared:
                place = STEPS[hazard.step].place
                if desk.visit.place != place:
                    do(desk, "go", place=place)
                do(desk, "prepare", step=hazard.step)
        lock_out(desk, codes[0])
        do(desk, "repair", repair=codes[0], amount=None)


def well_played(desk: CallDesk, key: Key, *, until_sure: bool = False) -> None:
    """Any call, worked by somebody who measures what tells, repairs what is true and proves it."""
    asked = "ask_when ask_changed ask_touched ask_rooms read_bill read_history"
    go(desk, "customer", "consent", asked)
    if not desk.visit.is_running:
        do(desk, "start")
        do(desk, "wait", minutes="15")
    true = tuple(shares(key))
    proof = {test for tests in key.proof.values() for test in tests}
    telling = {name for cause in true for name in evidence()[cause]}
    # Air first: no charge test counts before it is proven.
    take_all(desk, {"grille_dry_bulb", "grille_wet_bulb", "outdoor_temperature", "coil_airflow"})
    take_all(desk, telling | proof)
    if until_sure:
        make_sure(desk, frozenset(true))
    cited = [sheet(desk)[name] for name in sheet(desk) if name in telling]
    mark_cleared(desk)
    sizes = [sizes_of(key).get(cause, "") for cause in true]
    do(desk, "declare", causes=list(true), cited=cited, sizes=sizes)
    mend(desk, key)
    if not desk.visit.is_running:
        do(desk, "start")
        do(desk, "wait", minutes="20")
    if key.repairs:
        take_all(desk, proof)
    do(desk, "write_up", text=TO_THE_CUSTOMER)
    do(desk, "close")


def lock_out(desk: CallDesk, repair: str) -> None:
    """Whatever lock-out a repair asks for."""
    step = LOCKED_OUT.get(repair)
    if step is not None:
        go(desk, STEPS[step].place, step)


TO_THE_CUSTOMER = (
    "I took the readings at 11 and again at 14 o'clock: the air, both sides of the circuit and the "
    "power. What I found and did stands on the sheet with its numbers, 2 of them before and after. "
    "The charge was not touched. Please watch the next bill and call if it does not fall."
)


def hastily_played(desk: CallDesk) -> None:
    """Any call: gauges, refrigerant, gone."""
    if not desk.visit.is_running:
        do(desk, "start")
    hasty_capstone(desk)
