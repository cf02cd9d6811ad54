"""Every call of the library: good work is worth much, haste little, and the plant agrees."""

from pathlib import Path

import pytest

from simulator.calls import call_file
from simulator.calls.sealed import sealed
from simulator.plant import steady
from simulator.scoring.scorecard import score
from simulator.scoring.truth import shares
from simulator.serve.visits import CallDesk
from tests.scoring.played import desk_for, do, hastily_played, well_played

EVERY = pytest.mark.parametrize("call", call_file.names())


@pytest.fixture
def desk(call: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> CallDesk:
    """The call, just arrived."""
    return desk_for(call, tmp_path, monkeypatch)


def test_the_calls_are_of_all_kinds() -> None:
    """As many as the issue that asks for them, and among them each kind it names."""
    keys = {call: sealed(call).opened() for call in call_file.names()}
    assert len(keys) >= 16
    assert sum(not key.causes for key in keys.values()) >= 3
    assert sum(call_file.load(call).mode == "heating" for call in keys) >= 2
    assert sum(len(key.causes) == 2 for key in keys.values()) >= 4
    assert any(
        call_file.load(call).metering == "orifice" and "return_leak" in key.causes
        for call, key in keys.items()
    )


@EVERY
def test_good_work_is_worth_much(call: str, desk: CallDesk) -> None:
    key = sealed(call).opened()
    well_played(desk, key)
    card = score(desk.visit.events, key)
    # By the rubric's name: hazards are worth the same on every call.
    assert sum(part.of for part in card.parts) == pytest.approx(100.0)
    assert card.total >= 85, [(part.name, part.points, part.of) for part in card.parts]
    assert card.harm == ()
    assert "problem" not in desk.debrief("us")


@EVERY
def test_haste_is_worth_little_and_its_harm_is_named(call: str, desk: CallDesk) -> None:
    hastily_played(desk)
    card = score(desk.visit.events, sealed(call).opened())
    assert card.total <= 40, [(part.name, part.points, part.of) for part in card.parts]
    assert card.harm


@EVERY
def test_a_guess_from_the_door_is_worth_little(call: str, desk: CallDesk) -> None:
    """Also where it happens to be right: luck earns 40 % of diagnosis and evidence at most."""
    do(desk, "declare", causes=list(shares(sealed(call).opened())), cited=[])
    do(desk, "close")
    assert score(desk.visit.events, sealed(call).opened()).total <= 35


@EVERY
def test_the_right_repair_restores_and_refrigerant_does_not(call: str, desk: CallDesk) -> None:
    """By computation: delivered heat within 1 % of healthy; added refrigerant leaves it missing."""
    key, site = sealed(call).opened(), desk._site
    right = tuple((codes[0], None) for codes in key.repairs.values())
    held = site.conditions(0.0)

    def delivered(*acts: tuple[str, float | None]) -> float:
        return abs(float(steady.solve(site.installation(acts), held).delivered_capacity))

    healthy = abs(float(steady.solve(site.healthy(), held).delivered_capacity))
    assert delivered(*right) == pytest.approx(healthy, rel=0.01)
    if key.causes:
        assert delivered() < 0.985 * healthy
        assert delivered(("add_refrigerant", 0.23)) < 0.99 * healthy
