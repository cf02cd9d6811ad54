"""Every call of the library: good work is worth much, haste little, and the plant agrees."""

import os
from pathlib import Path

import pytest

from simulator.calls import call_file
from simulator.calls.sealed import sealed
from simulator.calls.site import Site
from simulator.plant import parameter_file, steady
from simulator.scoring.grounds import weather
from simulator.scoring.scorecard import Scorecard, score
from simulator.scoring.truth import shares
from simulator.serve.visits.visits import CallDesk
from tests.scoring.played import desk_for, do, go, graded, hastily_played, well_played

EVERY = pytest.mark.parametrize("call", call_file.names())
# The odds of a call take seconds to work out: a sample, the same as of the simulated trainees.
WITH_ODDS = call_file.names() if os.environ.get("BENCHCALL_WHOLE") else call_file.names()[::3]


@pytest.fixture
def desk(call: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> CallDesk:
    """The call, just arrived; unit and tools always the same, for one draw in many misleads."""
    found = desk_for(call, tmp_path, monkeypatch)
    found._site = Site(found._site.call, found._site.key, 20)
    return found


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


def card_of(call: str, desk: CallDesk) -> Scorecard:
    """With its odds where they are worked out."""
    key = sealed(call).opened()
    if call in WITH_ODDS:
        return graded(desk, key)
    return score(desk.visit.events, key, weather(desk.visit, desk._site))


@EVERY
def test_good_work_is_worth_much(call: str, desk: CallDesk) -> None:
    key = sealed(call).opened()
    well_played(desk, key, until_sure=call in WITH_ODDS)
    card = card_of(call, desk)
    # By the rubric's name: hazards are worth the same on every call.
    assert sum(part.of for part in card.parts) == pytest.approx(100.0)
    open_ones = sum(part.of for part in card.parts if part.is_open)
    lost = [(part.name, part.points, part.of) for part in card.parts]
    # Where the odds are left out, the same 15 points may be missing of the other parts.
    assert card.total >= 85 - open_ones, lost
    assert card.harm == ()
    assert "problem" not in desk.debrief("us")


@EVERY
def test_haste_is_worth_little_and_its_harm_is_named(call: str, desk: CallDesk) -> None:
    hastily_played(desk)
    card = card_of(call, desk)
    assert card.total <= 40, [(part.name, part.points, part.of) for part in card.parts]
    assert card.harm


@EVERY
def test_a_guess_from_the_door_is_worth_little(call: str, desk: CallDesk) -> None:
    """Also where it happens to be right: luck earns 40 % of diagnosis and evidence at most."""
    do(desk, "declare", causes=list(shares(sealed(call).opened())), cited=[])
    do(desk, "close")
    assert card_of(call, desk).total <= 35


@pytest.mark.parametrize("call", WITH_ODDS)
def test_luck_at_minute_two_keeps_two_fifths_of_finding_and_evidence(
    call: str, desk: CallDesk
) -> None:
    """By the odds of the one question that was asked; the bar is the rubric's own."""
    go(desk, "customer", "", "ask_when")
    cited = [event.seq for event in desk.visit.readings]
    do(desk, "declare", causes=list(shares(sealed(call).opened())), cited=cited)
    do(desk, "close")
    parts = [p for p in card_of(call, desk).parts if p.name in ("Evidence", "Diagnosis")]
    assert 0.0 < sum(p.points for p in parts) <= 0.4 * sum(p.of for p in parts)


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


# Words that a hazard's sentence uses of the space around the ducts; "attic" has a knee wall too.
SPACES = {
    "attic": ("attic", "knee wall"),
    "basement": ("basement",),
    "crawl_space": ("crawl",),
    "ceiling": (),
}


@EVERY
def test_the_key_warns_of_the_space_that_the_house_has(call: str) -> None:
    """In each house that a version may stand in."""
    key = sealed(call).opened()
    said = [hazard.text.lower() for hazard in key.hazards if hazard.step == "hazard_look_zone"]
    tables = call_file.document(call)
    houses = tables["sealed"].get("versions", {}).get("houses", [tables["site"]["house"]])
    for house in houses:
        zone = str(parameter_file.read("sites", house).table("site").rows["supply_zone"])
        assert all(any(word in text for word in SPACES[zone]) for text in said), (house, said)
