"""The difficulty of a call, part by part, where it can be counted by hand."""

import re
from dataclasses import replace

import pytest

from simulator.calls.events import Opened, Repaired
from simulator.calls.visit import Visit, advanced
from simulator.diagnosis.belief import Belief
from simulator.variants.difficulty import (
    Difficulty,
    arithmetic_steps,
    dangers,
    false_leads,
    words_to_read,
)
from simulator.variants.equality import Measured, differences
from simulator.variants.plays import entropy, minutes_to
from simulator.variants.separation import FARTHEST, apart
from simulator.variants.subject import Subject, subject

MINE = Measured(
    difficulty=Difficulty(
        minutes=40.0, entropy=5.0, separation=3.0, faults=1, traps=9, steps=4, words=200
    ),
    scores={"reference": 95.0, "random": 12.0},
)


@pytest.fixture(scope="module")
def rooke() -> Subject:
    return subject("rooke")


def test_steps_of_a_strip_left_on_are_three_differences_and_the_bill(rooke: Subject) -> None:
    """Counted by hand: split, grille to register, return gain; one subtraction each."""
    assert arithmetic_steps(rooke.call, rooke.key) == 4


def test_steps_of_a_return_leak_on_an_orifice() -> None:
    """By hand: target superheat 4, return gain 1, filter drop 1, leak by temperature 3, bill 1."""
    whole = subject("lundgaard")
    assert arithmetic_steps(whole.call, whole.key) == 10


def test_dangers_are_the_gates_of_the_file(rooke: Subject) -> None:
    """By hand: live panel and closet; the outdoor unit caps nothing."""
    assert dangers(rooke.key) == 2


def test_sayings_that_speak_for_the_innocent(rooke: Subject) -> None:
    """By hand: the smell for return leak and open slot, the breaker for an open strip element."""
    assert false_leads(rooke.call, rooke.key) == 3


def test_words_are_counted_as_read(rooke: Subject) -> None:
    call = rooke.call
    longer = replace(call, complaint=f"{call.complaint} Please come soon.")
    assert words_to_read(longer) == words_to_read(call) + 3
    told = " ".join((call.title, call.customer, call.address, call.complaint, call.weather_text,
                     *call.history, *call.equipment, *call.answers.values()))  # fmt: skip
    assert words_to_read(call) == len(re.findall(r"\S+", told))


def test_doubt_of_four_equal_chances_is_two_bits() -> None:
    """By definition."""
    sets = {frozenset({name}): 0.25 for name in "abcd"}
    assert entropy(sets) == pytest.approx(2.0)


def test_minutes_end_where_ten_to_one_is_first_reached() -> None:
    """Before any repair; what comes after one proves the repair, not the cause."""
    truth, other = frozenset({"a"}), frozenset({"b"})

    def belief(seq: int, minute: float, share: float) -> Belief:
        return Belief(seq, minute, {truth: share, other: 1.0 - share}, {})

    beliefs = (
        belief(-1, 0.0, 0.5),
        belief(1, 8.0, 0.9),
        belief(2, 14.0, 0.91),
        belief(4, 20.0, 1.0),
    )
    visit = advanced(Visit(), Opened(seq=0, minute=0.0, is_running=True))
    assert minutes_to(("a",), beliefs, visit) == visit.minute  # nothing counts on an empty sheet
    late = replace(visit, events=(*visit.events, *visit.events, *visit.events, *visit.events))
    assert minutes_to(("a",), beliefs, late) == 14.0
    mended = Repaired(seq=2, minute=12.0, repair="clear_drain", minutes=5.0, amount=None)
    assert minutes_to(("a",), beliefs, advanced(late, mended)) == advanced(late, mended).minute


def test_a_look_alike_denies_something_that_is_true() -> None:
    """Two normals four standard deviations apart, from theory; more of the same is no rival."""
    one, more, other = frozenset({"a"}), frozenset({"a", "b"}), frozenset({"c"})
    by_set = {one: -2.0, more: -2.5, other: -10.0}
    assert apart(by_set, one) == pytest.approx(4.0)
    assert apart({one: 0.0, other: -500.0}, one) == FARTHEST
    assert apart(by_set, frozenset({"d"})) == 0.0


@pytest.mark.parametrize(
    ("part", "value", "is_equal"),
    [
        ("minutes", 43.9, True), ("minutes", 44.1, False), ("separation", 2.69, False),
        ("traps", 10, False), ("steps", 5, False), ("words", 219, True), ("words", 221, False),
    ],
)  # fmt: skip
def test_within_a_tenth_or_the_same_count(part: str, value: float, is_equal: bool) -> None:
    """Bars of the issue on variants."""
    other = replace(MINE, difficulty=replace(MINE.difficulty, **{part: value}))
    assert (differences(MINE, other) == []) == is_equal


def test_a_trainee_who_scores_otherwise_speaks_against_it() -> None:
    near = replace(MINE, scores={"reference": 90.1, "random": 16.9})
    far = replace(MINE, scores={"reference": 95.0, "random": 17.1})
    assert differences(MINE, near) == []
    assert differences(MINE, far) == ["random scores 17.1 beside 12.0"]
