"""Every needless repair is named with what it cost; the charge as left is computed.

No outside source: that the customer pays for parts, minutes and refrigerant is the rubric's own.
"""

from pathlib import Path

import pytest

from simulator.calls.sealed import sealed
from simulator.repairs._catalogue import discover
from simulator.scoring.harm import PARTS, REFRIGERANT, harm, wanted
from simulator.serve.visits.visits import CallDesk
from tests.scoring.played import desk_for, do, graded

KEY = sealed("mallorn").opened()


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> CallDesk:
    """The capstone, nothing of whose circuit needs mending."""
    found = desk_for("mallorn", tmp_path, monkeypatch)
    do(found, "declare", causes=["no_fault"], cited=[])
    return found


def repair(desk: CallDesk, code: str, amount: str | None = None) -> None:
    """Carried out with the system as the repair asks."""
    if code == "add_refrigerant" and not desk.visit.is_running:
        do(desk, "start")
    elif code not in ("add_refrigerant", "recover_refrigerant") and desk.visit.is_running:
        do(desk, "stop")
    do(desk, "repair", repair=code, amount=amount)


def told(desk: CallDesk) -> list[str]:
    """Harm as the debrief has it."""
    do(desk, "close")
    said: list[str] = desk.debrief("us")["debrief"]["harm"]
    return said


@pytest.mark.parametrize("code", sorted(set(discover()) - wanted(KEY)))
def test_any_needless_repair_is_named_with_its_cost(desk: CallDesk, code: str) -> None:
    amount = "8" if code in ("add_refrigerant", "recover_refrigerant") else None
    repair(desk, code, amount)
    ((said, event),) = harm(desk.visit, KEY)
    assert said.startswith(discover()[code].title)
    assert f"{event.minutes:.0f} min" in said
    assert amount is None or "8.0 oz" in said
    assert code in REFRIGERANT or PARTS.get(code, "min") in said


def test_what_was_added_and_recovered_again_is_named_twice_and_costs_little_more(
    desk: CallDesk,
) -> None:
    repair(desk, "add_refrigerant", "8")
    repair(desk, "recover_refrigerant", "8")
    said = told(desk)
    assert len(said) == 2  # and the charge is right again, so no third
    assert "answers what was added before" in said[1]
    card = graded(desk, KEY)
    part = next(part for part in card.parts if part.name == "Repair and no harm")
    assert {why.seq for why in part.because} >= {e.seq for e in desk.visit.repairs}


def test_taking_out_too_much_is_told_by_computation(desk: CallDesk) -> None:
    repair(desk, "recover_refrigerant", "16")
    assert "% less refrigerant than it should" in told(desk)[-1]


def test_right_repairs_are_no_harm(desk: CallDesk) -> None:
    repair(desk, "seal_supply")
    repair(desk, "seal_return")
    assert told(desk) == []
