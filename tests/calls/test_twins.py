"""Twins: one call, one seed, another fault; the same walk shows the same but for readings."""

import json
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest

from simulator.calls import actions, call_file
from simulator.calls.decide import decide
from simulator.calls.events import Opened
from simulator.calls.sealed import Sealed, sealed
from simulator.calls.site import Site
from simulator.calls.view import view
from simulator.calls.visit import Visit, advanced
from simulator.diagnosis.causes import causes, codes
from simulator.faults._catalogue import discover, named
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.places import PLACES
from simulator.instruments.steps import STEPS
from tests.faults.signs import signs

SEED = 20_240_717
READ = ("shown", "words")  # what a reading may tell
# What anyone hears on coming near: a compressor that stands is no secret, its cause is.
HEARD = ("Running since before you came.", "Called on, but the compressor stands.")
STORY = "Nobody may read this before the end of the visit."
WHOLE = [(cause.code, cause.name) for cause in causes()]


def site_with(**faults: float) -> Site:
    """The capstone's site with something else wrong and a story of its own."""
    key = replace(
        sealed("mallorn").opened(),
        faults=tuple(named(name, amount) for name, amount in faults.items()),
        story=STORY,
    )
    return Site(call_file.load("mallorn"), Sealed(key), SEED)


def whole_walk() -> Iterator[actions.Action]:
    """Every place, careful preparation and test in its first way; a repair; a second look."""
    for place in PLACES:
        yield actions.GoTo(place=place)
        for step in STEPS.values():
            if step.place == place and step.stands_for is None:
                yield actions.Prepare(step=step.id)
    for place in PLACES:
        yield actions.GoTo(place=place)
        for test in MEASUREMENTS.values():
            if test.place == place:
                yield actions.Measure(measurement=test.id, technique=test.techniques[0].id)
    yield actions.Mark(cause="supply_leak", mark="likely")
    yield actions.Declare(causes=("undercharge",), cited=())
    yield actions.Repair(repair="add_refrigerant", amount=0.1)
    yield actions.Wait(minutes=20.0)
    yield actions.GoTo(place="outdoor_unit")
    yield actions.Measure(measurement="suction_pressure", technique="careful")
    yield actions.WriteUp(text="A little was added.")


def walked(site: Site) -> list[dict[str, Any]]:
    """Views at every place of the walk, and after every act from the first mark on."""
    visit = advanced(Visit(), Opened(seq=0, minute=0.0, is_running=True))
    seen = []
    for action in whole_walk():
        if isinstance(action, actions.GoTo) and action.place == visit.place:
            continue
        for event in decide(visit, action, site=site, causes=codes()):
            visit = advanced(visit, event)
        if visit.marks or isinstance(action, actions.GoTo):
            seen.append(view(visit, number="B-1", site=site, causes=causes(), system="us"))
    return seen


def masked(part: Any) -> Any:
    """A view without what its readings say."""
    if isinstance(part, dict):
        heard = ("state", "text") if part.get("text") in HEARD else ()
        return {
            key: "…" if key in READ or key in heard else masked(item) for key, item in part.items()
        }
    return [masked(item) for item in part] if isinstance(part, list) else part


def texts(part: Any) -> Iterator[str]:
    """Every text in a view that is no part of the catalogue of causes."""
    if isinstance(part, dict):
        for key, item in part.items():
            yield key
            if key not in ("causes", "finding"):
                yield from texts(item)
    elif isinstance(part, list):
        for item in part:
            yield from texts(item)
    elif isinstance(part, str):
        yield part


# Rooms at a visit are the call's own, so what a thermostat makes of them tells over days only;
# the pins of a defrost board and a jumper tell in any season.
TELLS = {
    "cold_thermostat": False,
    "fan_always_on": False,
    "frequent_defrost": True,
    "misplaced_staging": True,
    "thermostat_offset": False,
}


@pytest.fixture(scope="module")
def healthy() -> list[dict[str, Any]]:
    """The walk where nothing is wrong."""
    return walked(site_with())


@pytest.mark.parametrize("fault", discover())
def test_the_same_walk_shows_the_same_but_for_readings(
    fault: str, healthy: list[dict[str, Any]]
) -> None:
    seen = walked(site_with(**{fault: discover()[fault].typical}))
    assert len(seen) == len(healthy)
    for one, two in zip(seen, healthy, strict=True):
        assert json.dumps(masked(one)) == json.dumps(masked(two))
    # Without this the comparison above would be worth nothing. The walk is made in summer, in
    # a house of one zone: a fault whose rows claim nothing there must leave it as it was.
    tells = seen[-1]["sheet"] != healthy[-1]["sheet"]
    claimed = {row["mode"] for row in signs() if row["fault"] == fault}
    assert tells is TELLS.get(fault, bool(claimed & {"cooling", "cooling_day"}))
    text = json.dumps(seen[-1], ensure_ascii=False)
    assert STORY not in text
    for kind in discover().values():
        assert kind.why not in text


def test_causes_are_named_only_in_the_whole_catalogue(healthy: list[dict[str, Any]]) -> None:
    for seen in healthy:
        assert [(row["code"], row["name"]) for row in seen["causes"]] == WHOLE
        said = set(texts(seen))
        for code, name in WHOLE:
            assert code not in said
            assert name not in said


def test_before_anything_is_asked_twins_are_one() -> None:
    visit = advanced(Visit(), Opened(seq=0, minute=0.0, is_running=True))
    first = [
        view(visit, number="B-1", site=site, causes=causes(), system="us")
        for site in (site_with(supply_leak=0.2), site_with(loaded_filter=6.0))
    ]
    assert all(seen == first[0] for seen in first)
