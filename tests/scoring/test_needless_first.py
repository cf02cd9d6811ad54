"""Refrigerant first, then the right cause: what was looked for afterwards is told and counts.

No outside source: the order of the visit is the point; its numbers are the plant's.
"""

from typing import Any

import pytest

from simulator.calls.events import Measured, Repaired
from simulator.calls.sealed import sealed
from simulator.calls.site import Site
from simulator.scoring.harm import wanted
from simulator.scoring.most_direct import turning_point
from simulator.scoring.scorecard import Scorecard
from simulator.serve.visits.visits import CallDesk
from tests.scoring.played import (
    TO_THE_CUSTOMER,
    desk_for,
    do,
    go,
    graded,
    mend,
    take_all,
    told_whole,
)

SMOKE = "smoke along the return, platform and panel joints"


@pytest.fixture(scope="module")
def worked(tmp_path_factory: pytest.TempPathFactory) -> tuple[CallDesk, dict[str, Any]]:
    """A return leak found and mended after refrigerant had been added, and its debrief."""
    with pytest.MonkeyPatch.context() as patch:
        found = desk_for("lundgaard", tmp_path_factory.mktemp("gas"), patch)
        found._site = Site(found._site.call, found._site.key, 20)
        _played(found)
        return found, told_whole(found)


def _played(desk: CallDesk) -> None:
    go(desk, "outdoor_unit", "hazard_look_outdoor connect_gauges", "suction_pressure")
    do(desk, "repair", repair="add_refrigerant", amount="8")
    do(desk, "wait", minutes="20")
    take_all(desk, {"grille_dry_bulb", "house_pressure", "return_dry_bulb", "smoke_return"})
    taken = [event.seq for event in desk.visit.readings]
    do(desk, "declare", causes=["return_leak"], cited=taken, sizes=["moderate"])
    mend(desk, sealed("lundgaard").opened())
    do(desk, "start")
    do(desk, "wait", minutes="20")
    take_all(desk, {"return_dry_bulb"})
    do(desk, "write_up", text=TO_THE_CUSTOMER)
    do(desk, "close")


@pytest.fixture
def desk(worked: tuple[CallDesk, dict[str, Any]]) -> CallDesk:
    return worked[0]


@pytest.fixture
def told(worked: tuple[CallDesk, dict[str, Any]]) -> dict[str, Any]:
    return worked[1]


@pytest.fixture(scope="module")
def card(worked: tuple[CallDesk, dict[str, Any]]) -> Scorecard:
    return graded(worked[0], sealed("lundgaard").opened())


def last(desk: CallDesk, name: str, count: int = 1) -> Measured:
    """One of the takes of a measurement, from the end."""
    return [e for e in desk.visit.readings if e.reading.measurement == name][-count]


def test_the_pair_around_what_mended_proves_it(desk: CallDesk, card: Scorecard) -> None:
    (part,) = [part for part in card.parts if part.name == "Re-test"]
    assert part.points == part.of
    assert part.because[0].seq == last(desk, "return_dry_bulb").seq


def test_the_pair_stands_side_by_side(told: dict[str, Any]) -> None:
    (pair,) = [one for one in told["pairs"] if one["name"] == "Return dry bulb at the air handler"]
    assert pair["is_proof"]
    assert float(pair["before"]["shown"]) > float(pair["after"]["shown"])


def test_what_was_taken_after_the_refrigerant_is_told_as_what_it_was(
    desk: CallDesk, told: dict[str, Any]
) -> None:
    key, site = sealed("lundgaard").opened(), desk._site
    assert SMOKE in (point := turning_point(desk.visit, key.causes, wanted(key), site))
    assert "not taken" not in point
    first, again = last(desk, "return_dry_bulb", 2), last(desk, "return_dry_bulb")
    assert "prove" not in told["acts"][str(first.seq)]
    assert "prove" in told["acts"][str(again.seq)]


def test_the_odds_go_on_until_something_is_mended(desk: CallDesk, told: dict[str, Any]) -> None:
    gas, seal = (e.seq for e in desk.visit.events if isinstance(e, Repaired))
    numbers = [int(seq) for seq in told["odds"]]
    assert any(gas < seq < seal for seq in numbers)
    assert max(numbers) < seal


def test_a_suspicion_names_what_stood_nearest(desk: CallDesk, card: Scorecard) -> None:
    """Smoke was taken and cited; what was not looked at is the filter slot."""
    (part,) = [part for part in card.parts if part.name == "Evidence"]
    (why,) = part.because
    assert "Nearest to it stood: Filter slot cover or panel missing." in why.text
    assert SMOKE not in why.text
    assert part.points == pytest.approx(8.0)
