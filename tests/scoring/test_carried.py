"""What readings carried: own arithmetic on beliefs written down by hand.

Bands of 10 to 1, 30 to 1 and 3 to 1: the rubric's own.
"""

import pytest

from simulator.calls.choice import NO_FAULT
from simulator.diagnosis.belief import Belief
from simulator.scoring.carried import LUCK, Carried, alone, needed_for, odds_of

FILTER, BOTH = frozenset({"loaded_filter"}), frozenset({"loaded_filter", "closed_registers"})
COIL, NOTHING = frozenset({"dirty_indoor_coil"}), frozenset({NO_FAULT})


def believing(sets: dict[frozenset[str], float]) -> Belief:
    """With the probability of each cause that follows."""
    causes: dict[str, float] = {}
    for one, share in sets.items():
        for cause in one:
            causes[cause] = causes.get(cause, 0.0) + share
    return Belief(seq=0, minute=0.0, sets=sets, causes=causes)


def carried(belief: Belief, causes: frozenset[str]) -> Carried:
    """As a finding that cites what shows it."""
    return Carried(odds_of(causes, belief), needed_for(causes), True, *alone(causes, belief))


@pytest.mark.parametrize(
    ("exactly", "and_more", "share"),
    [
        (0.80, 0.15, 1.0),  # there 19 to 1, alone 5 to 1
        (0.475, 0.475, 0.7),  # there 19 to 1, even with more: half way from luck to all
        (0.20, 0.75, LUCK),  # there 19 to 1, and more is likelier by far
        (0.60, 0.20, LUCK),  # there 4 to 1: a suspicion
        (0.25, 0.20, 0.0),  # not there as likely as there
    ],
)
def test_what_is_there_is_carried_and_what_is_beside_it_asked_apart(
    exactly: float, and_more: float, share: float
) -> None:
    sets = {FILTER: exactly, BOTH: and_more, COIL: 1.0 - exactly - and_more}
    found = carried(believing(sets), FILTER)
    assert found.share == pytest.approx(share)
    assert found.beside == ("closed_registers",)


def test_a_clear_lead_over_every_rival_is_enough_as_well() -> None:
    """Many small rivals: 60 to 4, though three in eight lie elsewhere."""
    rivals = {frozenset({f"rival_{number}"}): 0.04 for number in range(10)}
    found = carried(believing({NOTHING: 0.60, **rivals}), NOTHING)
    assert found.odds == pytest.approx(1.176, abs=0.001)
    assert found.share == 1.0


def test_half_of_two_says_nothing_of_the_other() -> None:
    """Both there, 2 to 1, is no more than open, however surely one of them is."""
    belief = believing({BOTH: 0.64, FILTER: 0.32, COIL: 0.04})
    assert carried(belief, BOTH).share == 0.0
    assert carried(belief, FILTER).is_enough


def test_nothing_is_carried_that_was_not_shown() -> None:
    assert Carried(9.0, 1.0, is_shown=False).share == 0.0


def test_a_costly_repair_asks_for_more() -> None:
    """16 to 1 and 30 to 1."""
    costly = frozenset({"open_compressor"})
    assert needed_for(costly) > needed_for(FILTER)
    sets = {costly: 16.0 / 17.0, COIL: 1.0 / 17.0}
    assert carried(believing(sets), costly).share == LUCK
