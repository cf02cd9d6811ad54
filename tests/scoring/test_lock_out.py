"""Power locked out before hands go to terminals: asked, graded, and undone by a start.

Lock, prove dead, discharge before such work: common practice, no source. The weight and the limit
of 40 are the rubric's own.
"""

from pathlib import Path

import pytest

from simulator.calls import call_file
from simulator.calls.decide import decide
from simulator.calls.events import Opened
from simulator.calls.repair_terms import LOCKED_OUT, LOOKS_LOCKED_OUT, WALK
from simulator.calls.sealed import sealed
from simulator.calls.site import Site
from simulator.calls.visit import Visit, advanced
from simulator.diagnosis.causes import codes
from simulator.diagnosis.coach import _before
from simulator.diagnosis.coach_targets import Target
from simulator.diagnosis.next_reading import SETTLED, Worth, minutes_for
from simulator.diagnosis.reasoner import _steadily
from simulator.instruments.steps import LOCK_OUTS, STEPS
from simulator.repairs import _catalogue as repairs
from simulator.scoring.safety import lock_outs
from simulator.scoring.scorecard import Scorecard
from simulator.serve.visits.visits import CallDesk
from tests.scoring.played import desk_for, do, go, graded


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> CallDesk:
    """The call whose repair goes to the strips' terminals, other dangers already met."""
    found = desk_for("rooke", tmp_path, monkeypatch)
    go(found, "electrical_panel", "prove_meter")
    go(found, "air_handler", "hazard_look_air_handler")
    return found


def closed(desk: CallDesk) -> Scorecard:
    """What it was worth, with nothing else done."""
    do(desk, "declare", causes=["strips_on"], cited=[])
    do(desk, "close")
    return graded(desk, sealed("rooke").opened())


def safety(card: Scorecard) -> float:
    """Points of that part."""
    return next(part.points for part in card.parts if part.name == "Safety")


def repaired(desk: CallDesk) -> None:
    """The sequencer replaced, whatever was done before."""
    do(desk, "repair", repair="replace_sequencer", amount=None)


def test_locked_out_earns_all_and_caps_nothing(desk: CallDesk) -> None:
    go(desk, "air_handler", "lock_out_air_handler")
    repaired(desk)
    card = closed(desk)
    assert not card.is_capped
    assert safety(card) == 12.0


def test_not_locked_out_costs_and_caps(desk: CallDesk) -> None:
    repaired(desk)
    card = closed(desk)
    assert card.is_capped
    # 10 of the 14 points due were met, of a part of 12.
    assert safety(card) == pytest.approx(12.0 * 10.0 / 14.0, abs=0.05)
    reasons = [why for part in card.parts for why in part.because if "Not locked out" in why.text]
    assert {why.seq for why in reasons} == {desk.visit.repairs[0].seq}


def test_a_start_takes_the_lock_off(desk: CallDesk) -> None:
    go(desk, "air_handler", "lock_out_air_handler")
    do(desk, "start")
    do(desk, "stop")
    repaired(desk)
    assert closed(desk).is_capped


def test_a_lock_put_on_while_it_ran_is_none(desk: CallDesk) -> None:
    do(desk, "start")
    go(desk, "air_handler", "lock_out_air_handler")
    do(desk, "stop")
    repaired(desk)
    assert closed(desk).is_capped


def test_the_page_asks_for_it_until_it_is_on(desk: CallDesk) -> None:
    def asked() -> str | None:
        rows = desk.view("us")["repairs"]
        said: str | None = next(r["lock_out"] for r in rows if r["code"] == "replace_sequencer")
        return said

    assert "Not locked out yet" in (asked() or "")
    go(desk, "air_handler", "lock_out_air_handler")
    assert asked() is None


def test_a_look_among_terminals_asks_for_it_and_caps_nothing(desk: CallDesk) -> None:
    go(desk, "air_handler", "", "look_control_wires")
    card = closed(desk)
    assert not card.is_capped
    assert safety(card) == pytest.approx(12.0 * 10.0 / 14.0, abs=0.05)


def test_every_repair_that_says_lock_out_is_held_to_it() -> None:
    """The caution on the page and the grade agree, repair by repair."""
    said = {code for code, act in repairs.discover().items() if "Lock out" in (act.caution or "")}
    assert said == set(LOCKED_OUT)
    assert {*LOCKED_OUT.values(), *LOOKS_LOCKED_OUT.values()} == LOCK_OUTS


@pytest.mark.parametrize("look", sorted(LOOKS_LOCKED_OUT))
def test_the_reference_and_the_coach_lock_out_before_such_a_look(look: str) -> None:
    """Whoever is taken for an example goes among wires with the power off, and says so."""
    call = call_file.load("osterlund")
    site = Site(call, sealed("osterlund"), 7)
    visit = advanced(Visit(), Opened(seq=0, minute=0.0, is_running=True))
    said = " ".join(_before(Target(look), visit, call))
    assert "switch the system off" in said
    name = STEPS[LOOKS_LOCKED_OUT[look]].name
    assert name[1:] in said
    before = minutes_for(look, visit, is_running=True)
    while look not in {event.reading.measurement for event in visit.readings}:
        act = _steadily(Worth(look, True, 1.0, 1.0), visit)
        for event in decide(visit, act, site=site, causes=codes()):
            visit = advanced(visit, event)
    assert not visit.is_running
    assert [one.is_met for one in lock_outs(visit)] == [True]
    # The worth of the look counts the stop, the lock and settling again, and the way in between.
    assert before == pytest.approx(visit.minute + SETTLED, abs=4.0 * WALK)
    assert minutes_for(look, visit, is_running=True) < before
