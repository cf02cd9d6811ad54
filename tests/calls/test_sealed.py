"""The vault and damaged call files: one sentence, and nothing of the answer in it."""

import copy
import json
import pickle
import re
from collections.abc import Callable
from typing import Any

import pytest

from simulator.calls import call_file, sealed
from simulator.calls.call_table import CallFileError
from simulator.faults._catalogue import discover
from simulator.repairs import _catalogue as repairs

CALL = "mallorn"
SENTENCE = re.compile(r"[A-Z][^\n]*[^.\n]\.")


def given_away() -> set[str]:
    """Words of the key that no message may hold."""
    key = sealed.sealed(CALL).opened()
    acts = {act for chosen in key.repairs.values() for act in chosen}
    return {key.story, *key.causes, *acts, *(hazard.text for hazard in key.hazards)}


def tables(**changed: Any) -> dict[str, Any]:
    """The capstone's file with something changed in its key."""
    found = call_file.document(CALL)
    return {**found, "sealed": {**found["sealed"], **changed}}


def said(read: Callable[[], object]) -> str:
    """The one sentence of a file that cannot be used."""
    with pytest.raises(CallFileError) as problem:
        read()
    text = str(problem.value)
    assert SENTENCE.fullmatch(text)
    assert problem.value.__cause__ is None
    assert problem.value.__suppress_context__ or problem.value.__context__ is None
    assert not any(word in text for word in given_away())
    return text


@pytest.mark.parametrize("shown", [repr, str, format, "{}".format, "{!r:>9}".format])
def test_neither_box_nor_key_shows_anything(shown: Callable[[object], str]) -> None:
    box = sealed.sealed(CALL)
    for thing in (box, box.opened()):
        assert shown(thing).strip() == "<sealed>"


@pytest.mark.parametrize(
    "attempt",
    [
        *(lambda x, p=p: pickle.dumps(x, p) for p in range(pickle.HIGHEST_PROTOCOL + 1)),
        copy.copy,
        copy.deepcopy,
        json.dumps,
        vars,
    ],
)
def test_neither_box_nor_key_is_stored_or_copied(attempt: Callable[[object], object]) -> None:
    box = sealed.sealed(CALL)
    for thing in (box, box.opened(), [box], {"key": box.opened()}):
        if attempt is copy.copy and isinstance(thing, list | dict):
            continue
        with pytest.raises(TypeError) as problem:
            attempt(thing)
        assert not any(word in str(problem.value) for word in given_away())


@pytest.mark.parametrize(
    "content",
    [
        b"\xff\xfe\x00",
        b"\x00" * 64,
        b"[work_order",
        b'[sealed]\nstory = "The supply_leak\n',
        "[sealed]\nstory = 'ä'".encode("latin-1"),
        b"a = 1\na = 2\n",
    ],
    ids=repr,
)
def test_what_is_no_call_file_is_said_plainly(content: bytes) -> None:
    assert "damaged" in said(lambda: call_file.parsed(CALL, content))


@pytest.mark.parametrize("missing", ["work_order", "site", "answers", "arrival", "day"])
def test_a_missing_or_senseless_part_is_named(missing: str) -> None:
    found = call_file.document(CALL)
    for part in ({key: rows for key, rows in found.items() if key != missing},
                 {**found, missing: 3}, {**found, missing: []}):  # fmt: skip
        assert f"[{missing}]" in said(lambda part=part: call_file.understood(CALL, part))
    assert CALL in said(lambda: call_file.understood(CALL, {**found, missing: {}}))


@pytest.mark.parametrize("name", ["nobody", "", "../mallorn", "mallorn.toml", "x" * 500])
def test_a_call_there_is_not(name: str) -> None:
    for read in (call_file.load, sealed.sealed):
        assert len(said(lambda read=read: read(name))) < 80


@pytest.mark.parametrize(
    ("part", "rows"),
    [
        ("arrival", {"hour": {"value": float("nan"), "unit": "h"}}),
        ("arrival", {"hour": {"value": 10**400, "unit": "h"}}),
        ("arrival", {"hour": {"value": True, "unit": "h"}}),
        ("arrival", {"hour": {"value": 13.5, "unit": ["h"]}}),
        ("arrival", {"hour": 13.5}),
        ("day", {"high": {"value": 94.0, "unit": "°C"}}),
        ("site", {"house": "nowhere"}),
        ("site", {"unit": "../sites/mallorn"}),
        ("site", {"metering": "valve"}),
        ("work_order", {"title": "  "}),
        ("work_order", {"history": "none"}),
        ("work_order", {"history": [1]}),
    ],
    ids=str,
)
def test_a_row_that_cannot_be_used(part: str, rows: dict[str, Any]) -> None:
    found = call_file.document(CALL)
    said(lambda: call_file.understood(CALL, {**found, part: {**found[part], **rows}}))


DAMAGE: list[dict[str, Any]] = [
    {"faults": {"gremlins": 1.0}},
    {"faults": {"supply_leak": 5.0}},
    {"faults": {"supply_leak": float("nan")}},
    {"faults": {"supply_leak": "much"}},
    {"faults": ["supply_leak"]},
    {"causes": {"supply_leak": 1.0}},
    {"causes": {"supply_leak": float("inf"), "return_leak": 0.4}},
    {
        "causes": {"gremlins": 1.0},
        "repairs": {"gremlins": ["seal_supply"]},
        "proof": {"gremlins": ["register_sum"]},
    },
    {"repairs": {"supply_leak": ["pray"], "return_leak": ["seal_return"]}},
    {"repairs": {"supply_leak": "seal_supply", "return_leak": ["seal_return"]}},
    {"proof": {"supply_leak": ["aura"], "return_leak": ["house_pressure"]}},
    {"repairs": {"supply_leak": [], "return_leak": ["seal_return"]}},
    {"repairs": {"supply_leak": [], "return_leak": []}},
    {"proof": {"supply_leak": ["register_sum"], "return_leak": []}},
    {"hazards": 3},
    {"hazards": [{}]},
    {"usual_minutes": "long"},
    {"usual_minutes": 10**400},
    {"story": 3},
    {"story": " "},
]


@pytest.mark.parametrize("damage", DAMAGE, ids=str)
def test_a_damaged_key_gives_nothing_away(damage: dict[str, Any]) -> None:
    text = said(lambda: sealed.understood(CALL, tables(**damage)))
    assert text == f"The sealed part of call {CALL} is damaged."


# What versions may differ in is said by the call, not by its key.
@pytest.mark.parametrize(
    "missing", sorted(call_file.document(CALL)["sealed"].keys() - {"versions"})
)
def test_a_key_with_something_missing(missing: str) -> None:
    found = tables()
    del found["sealed"][missing]
    assert "sealed part" in said(lambda: sealed.understood(CALL, found))


@pytest.mark.parametrize("change", [{"step": "pray"}, {"places": ["moon"]}, {"repairs": ["pray"]},
                                    {"points": float("nan")}], ids=str)  # fmt: skip
def test_a_hazard_that_cannot_be_met(change: dict[str, Any]) -> None:
    first = tables()["sealed"]["hazards"][0]
    said(lambda: sealed.understood(CALL, tables(hazards=[{**first, **change}])))


def test_a_file_without_a_key() -> None:
    found = {name: rows for name, rows in tables().items() if name != "sealed"}
    assert "[sealed]" in said(lambda: sealed.understood(CALL, found))


@pytest.mark.parametrize("call", call_file.names())
def test_every_key_of_the_library_is_whole(call: str) -> None:
    key = sealed.sealed(call).opened()
    assert set(key.causes) <= set(discover()) | {"no_fault"}
    assert {act for acts in key.repairs.values() for act in acts} <= set(repairs.discover())
    assert all(share > 0.0 for share in key.causes.values())
    # A sound house has nothing to share out, nothing to mend and nothing to prove.
    whole = 1.0 if key.faults else 0.0
    assert sum(key.causes.values()) == pytest.approx(whole, abs=0.051)
    assert bool(key.faults) == bool(key.causes) == bool(key.repairs) == bool(key.proof)


@pytest.mark.parametrize("call", call_file.names())
def test_the_public_part_holds_nothing_of_the_key(call: str) -> None:
    public = repr(call_file.load(call))
    key = sealed.sealed(call).opened()
    assert key.story not in public
    assert not any(cause in public for cause in key.causes)


def test_the_hours_said_before_a_visit_do_not_tell_a_sound_house() -> None:
    """The same hours stand on calls with and without a fault, so that none can be told by them."""
    hours: dict[bool, set[float]] = {True: set(), False: set()}
    for call in call_file.names():
        key = sealed.sealed(call)
        hours[bool(key.opened().causes)].add(key.about_hours())
    assert hours[False] <= hours[True]
