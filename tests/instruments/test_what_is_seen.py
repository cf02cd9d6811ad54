"""Words of eyes, hand and smoke: they follow the size of a thing and name no cause."""

from dataclasses import replace

import pytest

from simulator.faults import _catalogue as faults
from simulator.instruments import sight
from simulator.instruments.measurements import MEASUREMENTS
from simulator.plant import standing, steady
from simulator.plant.installation import Installation
from tests.plant.stand import installed, weather

SEEN = [key for key, item in MEASUREMENTS.items() if item.way in ("look", "feel")]
ASKED = [key for key, item in MEASUREMENTS.items() if item.way == "ask"]
# What is looked at, what is wrong there, and amounts from nothing to much, in the fault's unit.
GROWING = [
    ("look_filter", "loaded_filter", (0.0, 1.0, 8.0)),
    ("look_slot", "open_filter_slot", (0.0, 10.0, 40.0)),
    ("smoke_return", "return_leak", (0.0, 0.05, 0.2)),
    ("listen_blower", "weak_blower", (0.0, 0.2, 0.5)),
    ("look_ducts", "supply_leak", (0.0, 0.06, 0.22)),
    ("smoke_supply", "supply_leak", (0.0, 0.06, 0.22)),
    ("look_outdoor_coil", "dirty_outdoor_coil", (0.0, 0.2, 0.5)),
]


def seen(key: str, built: Installation, *, running: bool = True) -> str:
    """What one sees with the unit running or off."""
    solve = steady.solve if running else standing.at_rest
    return sight.words(key, built, solve(built, weather()), {})


@pytest.mark.parametrize(("key", "fault", "amounts"), GROWING)
def test_words_change_with_the_size_of_the_thing(
    key: str, fault: str, amounts: tuple[float, ...]
) -> None:
    told = [seen(key, installed("txv", 1.0, **{fault: amount})) for amount in amounts]
    assert len(set(told)) == len(amounts)


@pytest.mark.parametrize("key", SEEN)
def test_they_are_sentences_that_name_no_cause(key: str) -> None:
    titles = {kind.title.lower() for kind in faults.discover().values()}
    codes = {name.replace("_", " ") for name in faults.discover()}
    for name, kind in faults.discover().items():
        told = seen(key, installed("txv", 1.0, **{name: kind.typical}))
        assert told.endswith(".")
        assert not any(word in told.lower() for word in titles | codes)


@pytest.mark.parametrize("key", ["smoke_return", "smoke_supply", "listen_blower"])
def test_nothing_blows_with_the_unit_off(key: str) -> None:
    leaky = installed(return_leak=0.2, supply_leak=0.3, weak_blower=0.5)
    still = seen(key, leaky, running=False)
    assert "still" in still
    assert still != seen(key, leaky)


def test_a_refrigerant_side_cause_cannot_be_seen_at_the_ducts() -> None:
    for key in ("look_filter", "look_slot", "smoke_return", "look_ducts", "smoke_supply"):
        assert seen(key, installed(undercharge=0.2)) == seen(key, installed())


@pytest.mark.parametrize("key", ASKED)
def test_answers_are_the_calls_own(key: str) -> None:
    built = installed()
    now = steady.solve(built, weather())
    assert sight.words(key, built, now, {key: "Since June."}) == "Since June."
    assert sight.words(key, built, now, {}).endswith(".")


def test_what_was_made_good_is_seen_to_be_good() -> None:
    open_slot = installed(open_filter_slot=30.0)
    closed = replace(open_slot, ducts=replace(open_slot.ducts, slot_area=0.0))
    assert seen("look_slot", closed) == seen("look_slot", installed())
