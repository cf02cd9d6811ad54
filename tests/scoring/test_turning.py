"""One definition of what told most, for a trainee's own debrief and for a class."""

from collections.abc import Callable
from pathlib import Path

import pytest

from simulator.calls import call_file
from simulator.calls.events import Closed, Opened
from simulator.calls.sealed import sealed
from simulator.calls.site import Site
from simulator.calls.visit import fold
from simulator.diagnosis.belief import Belief
from simulator.diagnosis.evidence import weights
from simulator.instruments.measurements import MEASUREMENTS
from simulator.scoring import turning
from simulator.scoring.best_question import told_most
from simulator.scoring.turning import bears_most, is_told, turns
from simulator.serve.instructor.class_debrief import class_question
from simulator.serve.visits.visits import CallDesk
from tests.scoring.made import measured
from tests.scoring.played import desk_for, do, go, good_capstone, hasty_capstone


@pytest.fixture
def capstone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> CallDesk:
    """The capstone, just arrived."""
    return desk_for("mallorn", tmp_path, monkeypatch)


def repeating(desk: CallDesk) -> None:
    """The same readings again and again: only the first take of each is told of."""
    for place, tests in (("registers", "register_sum"), ("return_grille", "house_pressure")):
        go(desk, place, "", f"{tests} {tests} {tests}")
    do(desk, "declare", causes=["supply_leak"], cited=[])
    do(desk, "close")


@pytest.mark.parametrize("play", [good_capstone, hasty_capstone, repeating])
def test_one_visit_and_a_class_of_one_name_the_same_reading(
    capstone: CallDesk, play: Callable[[CallDesk], None]
) -> None:
    play(capstone)
    site, visit = capstone._site, capstone.visit
    turn, told = capstone.odds()["turns"][0], told_most([(visit, site)])
    question = class_question([(visit, site)], site)["name"]
    if told is None:
        assert (turn["seq"], turn["text"][:17]) == (None, "It was not taken:")
        return
    event = next(e for e in visit.readings if e.seq == turn["seq"])
    assert event.reading.measurement == told.measurement
    assert question == MEASUREMENTS[told.measurement].name
    # Nor is another one told at once, before the odds are worked out.
    assert capstone.debrief("us")["debrief"]["turning_point"] == ""


def test_where_nothing_was_taken_what_would_have_told_is_named(capstone: CallDesk) -> None:
    do(capstone, "declare", causes=["no_fault"], cited=[])
    do(capstone, "close")
    (turn,) = capstone.odds()["turns"]
    assert turn["seq"] is None
    assert turn["text"].startswith("It was not taken: ")


def test_without_odds_both_go_by_what_bears_on_it() -> None:
    """Three causes at once are more than anything is thought of."""
    true = frozenset({"loaded_filter", "undercharge", "supply_leak"})
    assert not is_told(true, Site(call_file.load("mallorn"), sealed("mallorn"), 5))
    names = {name for cause in true for name in weights()[cause]}
    best = bears_most(names, true)
    assert best is not None
    strongest = max(weights()[cause].get(name, 0.0) for cause in true for name in names)
    assert max(weights()[cause].get(best, 0.0) for cause in true) == strongest
    assert bears_most({"ask_when"}, true) is None
    assert bears_most(set(), true) is None


def test_a_repeat_that_moved_more_is_not_told_beside_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """A first take told a little and a repeat of it more: one reading told most, not two."""
    site = Site(call_file.load("mallorn"), sealed("mallorn"), 5)
    true, other = frozenset(site.key.opened().causes), frozenset({"undercharge"})
    name = "house_pressure"
    visit = fold(
        [
            Opened(seq=0, minute=0.0, is_running=True),
            *(measured(seq, name, 20.0 * seq) for seq in (1, 2)),
            Closed(seq=3, minute=60.0),
        ]
    )
    beliefs = [
        Belief(seq, 0.0, {true: share, other: 1.0 - share}, {})
        for seq, share in ((-1, 0.2), (1, 0.4), (2, 0.95))
    ]
    monkeypatch.setattr(turning, "believed", lambda *_: beliefs)
    told = turns(visit, site)
    assert [turn["seq"] for turn in told if turn["text"].startswith("What moved")] == [1]
