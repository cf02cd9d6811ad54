"""How large a fault was said to be, and what was ruled out beside it.

Shares of the range at 0.40 and 0.70 part slight, moderate and severe; 30 to 1 against clears a
cause, 10 to 1 is the least for saying so: the rubric's own.
"""

from dataclasses import replace

import pytest

from simulator.calls.events import Marked
from simulator.calls.sealed import Key, sealed
from simulator.calls.visit import Visit, fold
from simulator.diagnosis.belief import Belief
from simulator.diagnosis.causes import codes
from simulator.diagnosis.cleared import ASKED_FOR
from simulator.faults._base import Fault
from simulator.faults._catalogue import discover
from simulator.faults._sizes import SIZES, bounds_shown, nearness, size_at
from simulator.scoring.grounds import Grounds
from simulator.scoring.part import Part
from simulator.scoring.stated import finding_whole
from tests.scoring.made import believing, visit_of

TRUE = frozenset({"loaded_filter"})
RIVALS = ("dirty_indoor_coil", "weak_blower", "return_leak", "restricted_supply_duct")
LEFT = "restricted_return_duct"  # nothing on the sheet speaks against it


def key_of(share: float) -> Key:
    """The capstone's key with nothing but a loaded filter in it, so far into its range."""
    kind = discover()["loaded_filter"]
    return replace(
        sealed("mallorn").opened(),
        faults=(Fault(kind, share * kind.high),),
        causes={"loaded_filter": 1.0},
    )


def grounds_of(visit: Visit) -> Grounds:
    """Four rivals as likely as the filter at first and cleared by the readings; one is left."""
    known = believing(visit, {TRUE: 1.0})
    even = dict.fromkeys(("loaded_filter", *RIVALS, LEFT), 1.0 / 6.0)
    beside = {frozenset({one}): 0.01 for one in RIVALS[:3]}
    after = {TRUE: 0.84, TRUE | {LEFT}: 0.13, **beside}
    shares = {"loaded_filter": 0.97, LEFT: 0.13, **dict.fromkeys(RIVALS, 0.01)}
    found = [
        Belief(-1, 0.0, {frozenset({one}): share for one, share in even.items()}, even),
        Belief(1, 0.0, after, shares),
    ]
    return replace(known, beliefs=tuple(found))


def graded(visit: Visit, key: Key) -> Part:
    """The diagnosis of a visit."""
    return finding_whole(visit, key, grounds_of(visit))


def marking(*ruled_out: str, size: str = "moderate") -> Visit:
    """A filter stated after some causes were ruled out."""
    visit = visit_of(TRUE, sizes={"loaded_filter": size})
    stated = next(e.seq for e in visit.events if e is visit.finding)
    marks = [
        Marked(seq=stated + place, minute=1.0, cause=cause, mark="ruled_out")
        for place, cause in enumerate(ruled_out)
    ]
    rest = [replace(e, seq=e.seq + len(marks)) for e in visit.events[stated:]]
    return fold([*visit.events[:stated], *marks, *rest])


WHOLE = 15.0


@pytest.mark.parametrize(
    ("share", "said", "lost"),
    [
        (0.55, "moderate", 0.0),
        (0.55, "slight", 0.75),
        (0.55, "", 1.5),
        (0.90, "slight", 1.5),
        (0.90, "severe", 0.0),
        (0.42, "slight", 0.0),  # so near the bound both are right
        (0.42, "moderate", 0.0),
    ],
)
def test_the_size_is_worth_a_tenth_of_the_finding(share: float, said: str, lost: float) -> None:
    found = graded(marking(*RIVALS[:ASKED_FOR], size=said), key_of(share))
    assert found.points == pytest.approx(WHOLE - lost, abs=0.051)
    told = [why for why in found.because if "size" in why.text or "large" in why.text]
    assert len(told) == 1
    assert size_at(share) in told[0].text or lost == 0.0
    assert told[0].seq is not None


@pytest.mark.parametrize(
    ("ruled_out", "lost"),
    [
        (RIVALS[:3], 0.0),
        (RIVALS, 0.0),
        (RIVALS[:1], 1.0),
        ((), 1.5),
        ((*RIVALS[:3], LEFT), 0.875),  # said too early
        ((LEFT,), 1.5),
        (("suction_restriction",), 1.5),  # nobody thought of it, nothing spoke against it
        ((*RIVALS[:3], "suction_restriction"), 0.375),
        (tuple(sorted(codes() - TRUE)), 1.5),  # all that was not stated
    ],
)
def test_what_the_readings_cleared_counts_when_it_is_marked(
    ruled_out: tuple[str, ...], lost: float
) -> None:
    found = graded(marking(*ruled_out), key_of(0.55))
    assert found.points == pytest.approx(WHOLE - lost, abs=0.051)
    assert all(why.seq is not None for why in found.because)


def test_ruling_out_what_is_true_undoes_the_rest() -> None:
    visit = marking(*RIVALS[:3], "loaded_filter")
    # Who states it after all has taken it back.
    assert graded(visit, key_of(0.55)).points == pytest.approx(WHOLE)
    both = replace(key_of(0.55), causes={"loaded_filter": 0.5, "low_voltage": 0.5})
    clean = graded(marking(*RIVALS[:3]), both)
    undone = graded(marking(*RIVALS[:3], "low_voltage"), both)
    assert undone.points < clean.points
    assert any("though it was true" in why.text for why in undone.because)


def test_a_wrong_finding_earns_nothing_by_marks() -> None:
    key = replace(key_of(0.55), causes={"low_voltage": 1.0}, faults=())
    visit = marking(*RIVALS[:3])
    events = [replace(e, cited=()) if e is visit.finding else e for e in visit.events]
    assert graded(fold(events), key).points == 0.0


@pytest.mark.parametrize("system", ["us", "si"])
def test_every_fault_with_degrees_says_where_its_sizes_part(system: str) -> None:
    for kind in discover().values():
        shown = bounds_shown(kind, system)
        assert len(shown) == (0 if kind.is_all_or_nothing else 2)
        assert len({number for number, _ in shown}) == len(shown)
        assert all(unit for _, unit in shown)


def test_a_size_beside_the_right_one_is_worth_half() -> None:
    kind = discover()["undercharge"]
    assert [nearness(Fault(kind, 0.1), size) for size in SIZES] == [1.0, 0.5, 0.0]
    assert [nearness(Fault(kind, 0.275), size) for size in SIZES] == [0.5, 1.0, 0.5]
    assert [nearness(Fault(kind, 0.5), size) for size in SIZES] == [0.0, 0.5, 1.0]
    assert nearness(Fault(kind, 0.5), "huge") == nearness(Fault(kind, 0.5), "") == 0.0
