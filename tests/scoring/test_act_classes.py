"""Each reading and repair is told apart by how belief moved; classes are the rubric's own."""

from dataclasses import replace

import pytest

from simulator.calls.choice import NO_FAULT
from simulator.calls.events import Event, Measured, Repaired
from simulator.calls.sealed import Key, sealed
from simulator.calls.visit import fold
from simulator.diagnosis.belief import Belief
from simulator.faults._catalogue import discover
from simulator.scoring import act_classes as of
from simulator.scoring.grounds import Grounds
from tests.scoring.made import measured, visit_of

FILTER, COIL, FAN, VOLTS = (
    frozenset({name})
    for name in ("loaded_filter", "dirty_indoor_coil", "slow_outdoor_fan", "low_voltage")
)
NOTHING = frozenset({NO_FAULT})
EVEN = dict.fromkeys((FILTER, COIL, FAN, VOLTS, NOTHING), 0.2)


@pytest.fixture
def key() -> Key:
    """A loaded filter and nothing else, and no danger on the site."""
    return replace(
        sealed("mallorn").opened(),
        causes={"loaded_filter": 1.0},
        repairs={"loaded_filter": discover()["loaded_filter"].repairs},
        proof={"loaded_filter": ("static_before_filter",)},
        hazards=(),
    )


def belief(seq: int, sets: dict[frozenset[str], float]) -> Belief:
    """By sets of one."""
    return Belief(seq, float(seq), sets, {next(iter(one)): share for one, share in sets.items()})


def moving(*steps: dict[frozenset[str], float]) -> Grounds:
    """From the work order on, a step a reading; events count from 1."""
    return Grounds(
        outdoor={}, beliefs=tuple(belief(n if n else -1, one) for n, one in enumerate(steps))
    )


def class_of(key: Key, grounds: Grounds, *names: str) -> list[str]:
    """Of readings taken one after the other."""
    first = visit_of(()).events[0]
    events: list[Event] = [first, *(measured(n, name, n) for n, name in enumerate(names, start=1))]
    return list(of.classes(fold(events), key, grounds).values())


def test_many_ruled_out_at_once_split_the_field(key: Key) -> None:
    after = {FILTER: 0.6, COIL: 0.36, FAN: 0.02, VOLTS: 0.01, NOTHING: 0.01}
    assert class_of(key, moving(EVEN, after), "static_supply") == [of.SPLITS]


def test_one_ruled_out_is_one_by_one(key: Key) -> None:
    before = {FILTER: 0.3, COIL: 0.3, FAN: 0.1, VOLTS: 0.15, NOTHING: 0.15}
    after = {FILTER: 0.33, COIL: 0.32, FAN: 0.01, VOLTS: 0.17, NOTHING: 0.17}
    assert class_of(key, moving(before, after), "outdoor_current") == [of.ONE_BY_ONE]


def test_what_stood_first_already_is_confirmed(key: Key) -> None:
    before = {FILTER: 0.7, COIL: 0.3, FAN: 0.0, VOLTS: 0.0, NOTHING: 0.0}
    after = {FILTER: 0.8, COIL: 0.2, FAN: 0.0, VOLTS: 0.0, NOTHING: 0.0}
    assert class_of(key, moving(before, after), "static_after_filter") == [of.CONFIRMS]


def test_what_moves_nothing_is_beside_the_point_unless_it_is_required(key: Key) -> None:
    assert class_of(key, moving(EVEN, EVEN), "room_humidity") == [of.BESIDE]
    assert class_of(key, moving(EVEN, EVEN), "outdoor_temperature") == [of.REQUIRED]


def test_the_same_again_is_redundant_until_something_changes(key: Key) -> None:
    still = moving(EVEN, EVEN, EVEN)
    assert class_of(key, still, "room_humidity", "room_humidity")[1] == of.AGAIN


@pytest.mark.parametrize(
    ("repair", "sure", "expected"),
    [
        ("replace_filter", 0.95, of.PROVEN),
        ("replace_filter", 0.6, of.UNPROVEN),
        ("add_refrigerant", 0.95, of.HARMFUL),
    ],
)
def test_a_repair_is_judged_by_what_carried_it(
    key: Key, repair: str, sure: float, expected: str
) -> None:
    again = ["static_supply", "static_after_filter"]
    visit = visit_of({"loaded_filter"}, repair=repair, again=again)
    sets = {FILTER: sure, NOTHING: 1.0 - sure}
    grounds = Grounds(outdoor={}, beliefs=(belief(-1, sets),))
    found = of.classes(visit, key, grounds)
    (done,) = [event for event in visit.events if isinstance(event, Repaired)]
    assert found[done.seq] == expected
    new, taken = [event for event in visit.events if isinstance(event, Measured)][-2:]
    assert found[taken.seq] == of.RE_TEST
    # What nobody had looked at is still looked for where nothing was mended.
    assert (found[new.seq] == of.RE_TEST) is (expected != of.HARMFUL)


def test_a_danger_that_was_not_met_comes_before_all_else(key: Key) -> None:
    hazard = next(one for one in sealed("mallorn").opened().hazards if one.places)
    risky = replace(key, hazards=(replace(hazard, places=("return_grille",)),))
    assert class_of(risky, moving(EVEN, EVEN), "grille_dry_bulb") == [of.UNSAFE]


def test_every_class_has_its_words() -> None:
    names = {name for name in vars(of) if name.isupper()} - {"WORDS", "ALWAYS", "MEASUREMENTS"}
    kinds = {value for name in names if isinstance(value := getattr(of, name), str)}
    assert kinds == set(of.WORDS)
