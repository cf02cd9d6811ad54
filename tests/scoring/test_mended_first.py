"""Findings stated after a repair: what had to be known, had to be known before it.

Own arithmetic on visits and beliefs made by hand; the shares are the rubric's own.
"""

from collections.abc import Iterable, Mapping

import pytest

from simulator.calls.choice import NO_FAULT
from simulator.calls.events import Closed, Declared, Event, Opened, Repaired
from simulator.calls.sealed import Key, sealed
from simulator.calls.visit import Visit, fold
from simulator.diagnosis.belief import Belief
from simulator.diagnosis.causes import name_of
from simulator.diagnosis.evidence import weights
from simulator.faults._catalogue import discover
from simulator.scoring.finding import evidence
from simulator.scoring.grounds import Grounds
from tests.scoring.made import measured
from tests.scoring.test_rubric import key_for

FILTER, LUG = "loaded_filter", "loose_lug"
NOTHING, BOTH = frozenset({NO_FAULT}), frozenset({FILTER, LUG})
OPEN = {frozenset({FILTER}): 0.1, frozenset({LUG}): 0.1, BOTH: 0.1, NOTHING: 0.7}
MENDED = {NOTHING: 0.96, frozenset({FILTER}): 0.02, BOTH: 0.02}
Sets = Mapping[frozenset[str], float]


def visit_of(order: str, causes: tuple[str, ...]) -> tuple[Visit, list[int]]:
    """Letters in their order: measure, repair all, state; with the numbers of the readings."""
    names = list(dict.fromkeys(name for cause in causes for name in weights()[cause]))
    events: list[Event] = [Opened(seq=0, minute=0.0, is_running=True)]
    ends: list[int] = []
    for letter in (*order, "close"):
        seq, minute = len(events), 30.0 * len(events)
        if letter == "m":
            events += [measured(seq + place, name, minute) for place, name in enumerate(names)]
            ends.append(len(events) - 1)
        elif letter == "r":
            acts = dict.fromkeys(discover()[cause].repairs[0] for cause in causes)
            events += [
                Repaired(seq=seq + place, minute=minute, repair=act, amount=None, minutes=30.0)
                for place, act in enumerate(acts)
            ]
        elif letter == "s":
            taken = tuple(e.seq for e in fold(events).readings)
            events.append(Declared(seq=seq, minute=minute, causes=causes, cited=taken))
        else:
            events.append(Closed(seq=seq, minute=minute))
    return fold(events), ends


def points(order: str, causes: tuple[str, ...], key: Key, *beliefs: Sets) -> float:
    """For the evidence; one belief for the work order and one after each round of readings."""
    visit, ends = visit_of(order, causes)
    known = Grounds(
        outdoor=None,
        beliefs=tuple(
            Belief(seq, 0.0, sets, _causes(sets))
            for seq, sets in zip((-1, *ends), beliefs, strict=True)
        ),
    )
    return evidence(visit, key, known).points


def _causes(sets: Sets) -> dict[str, float]:
    named: Iterable[str] = {cause for one in sets for cause in one}
    return {c: sum(share for one, share in sets.items() if c in one) for c in named}


@pytest.mark.parametrize("causes", [(FILTER,), (LUG,), (FILTER, LUG)])
def test_what_was_mended_before_anything_was_known_is_luck(causes: tuple[str, ...]) -> None:
    """However sound all is afterwards."""
    key = key_for(*causes)
    assert points("rms", causes, key, OPEN, MENDED) == 0.0
    assert points("mrms", causes, key, OPEN, OPEN, MENDED) == 0.0


@pytest.mark.parametrize("causes", [(FILTER,), (LUG,), (FILTER, LUG)])
@pytest.mark.parametrize("order", ["msr", "mrs", "msrm"])
def test_what_was_known_when_it_was_mended_counts_whole(
    order: str, causes: tuple[str, ...]
) -> None:
    """Stated before it or after it."""
    carried = {frozenset(causes): 0.98, NOTHING: 0.02}
    later = (MENDED,) * (order.count("m") - 1)
    assert points(order, causes, key_for(*causes), OPEN, carried, *later) == 20.0


def test_a_re_test_settles_whether_something_was_wrong_beside_it() -> None:
    """Even with a second cause when it was mended; nothing was left when it was stated."""
    open_beside = {frozenset({FILTER}): 0.485, BOTH: 0.485, NOTHING: 0.03}
    left = {NOTHING: 0.5, frozenset({LUG}): 0.5}
    key = key_for(FILTER)
    assert points("msr", (FILTER,), key, OPEN, open_beside) == pytest.approx(14.0)
    assert points("mrms", (FILTER,), key, OPEN, open_beside, MENDED) == 20.0
    assert points("mrms", (FILTER,), key, OPEN, open_beside, left) == pytest.approx(14.0)


def test_a_wrong_cause_mended_first_is_no_ill_luck() -> None:
    """What a needless repair left sound speaks for nothing."""
    key = key_for(LUG)
    assert points("rms", (FILTER,), key, OPEN, MENDED) == 0.0
    assert points("mrms", (FILTER,), key, OPEN, {frozenset({FILTER}): 0.98, NOTHING: 0.02},
                  MENDED) == pytest.approx(13.0)  # fmt: skip


def test_that_nothing_was_wrong_is_about_the_unit_as_found() -> None:
    """Who mends first and finds all sound then has not found it so."""
    visit, ends = visit_of("rms", (FILTER,))
    stated = visit.finding
    assert stated is not None
    events = [
        Declared(seq=e.seq, minute=e.minute, causes=(NO_FAULT,), cited=stated.cited)
        if e is stated
        else e
        for e in visit.events
    ]
    beliefs = tuple(
        Belief(seq, 0.0, sets, _causes(sets))
        for seq, sets in zip((-1, *ends), ({**OPEN, NOTHING: 0.2, BOTH: 0.6}, MENDED), strict=True)
    )
    known = Grounds(outdoor=None, beliefs=beliefs)
    assert evidence(fold(events), key_for(FILTER), known).points == 0.0
    assert evidence(fold(events), sealed("osterlund").opened(), known).points == 0.0


def test_what_is_left_after_the_last_repair_is_named() -> None:
    """Nothing wrong is likelier than anything else, yet not settled: what stands nearest."""
    open_beside = {frozenset({FILTER}): 0.36, BOTH: 0.62, NOTHING: 0.02}
    left = {NOTHING: 0.6, frozenset({LUG}): 0.4}
    visit, ends = visit_of("mrms", (FILTER,))
    beliefs = tuple(
        Belief(seq, 0.0, sets, _causes(sets))
        for seq, sets in zip((-1, *ends), (OPEN, open_beside, left), strict=True)
    )
    told = evidence(visit, key_for(FILTER), Grounds(outdoor=None, beliefs=beliefs))
    assert 14.0 < told.points < 20.0
    assert any("Not settled" in why.text and name_of(LUG) in why.text for why in told.because)
