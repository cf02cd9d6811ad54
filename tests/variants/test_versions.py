"""Versions of a call: always the same ones, whole calls, with words that fit their numbers."""

import os
import re
from pathlib import Path

import pytest

from simulator.calls import call_file, invented_names, versions
from simulator.calls.call_table import CallFileError
from simulator.calls.sealed import sealed
from simulator.serve.command import main
from simulator.serve.commands import variants
from simulator.variants import store
from simulator.variants.bounds import bounds_of
from simulator.variants.candidates import made
from simulator.variants.difficulty import NAMES, Difficulty
from simulator.variants.equality import Measured, differences, is_near, measured
from simulator.variants.plays import plays_of
from simulator.variants.search import parent_of
from simulator.variants.separation import separation
from simulator.variants.subject import subject
from simulator.variants.wording import bill_words, bills_due, bills_said

EVERY = pytest.mark.parametrize("call", call_file.names())
KEPT = [call for call in call_file.names() if versions.recipes(call)]
VERSIONS = [(call, n) for call in KEPT for n in range(1, len(versions.recipes(call)) + 1)]
EACH = pytest.mark.parametrize(("call", "number"), VERSIONS)
SAMPLE = "tavener"


def test_a_version_is_always_the_same_and_two_are_not() -> None:
    first, again, second = (
        call_file.document(versions.named(KEPT[0], number)) for number in (1, 1, 2)
    )
    assert first == again
    assert first["work_order"]["customer"] != second["work_order"]["customer"]
    assert first["work_order"]["address"] != second["work_order"]["address"]


def test_as_many_versions_as_seats_have_names_of_their_own() -> None:
    """A class of 29; the next number begins the recipes again, under another name."""
    orders = [
        call_file.document(versions.named(KEPT[0], number))["work_order"] for number in range(1, 30)
    ]
    assert len({order["customer"] for order in orders}) == len(orders)
    assert len({order["address"] for order in orders}) == len(orders)


@pytest.mark.parametrize("name", ["nowhere.1", "mallorn.0", "mallorn.x", "mallorn.1.1", "../x.1"])
def test_what_is_no_version_is_refused(name: str) -> None:
    with pytest.raises(CallFileError):
        call_file.load(name)


def test_without_a_recipe_a_version_is_the_call_under_another_name(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """So a visit begun at a version can always be opened again."""
    monkeypatch.setattr(versions, "recipes", lambda _: ())
    mine, other = (call_file.document(name) for name in ("mallorn", "mallorn.4"))
    assert other["work_order"].pop("customer") != mine["work_order"].pop("customer")
    assert other["work_order"].pop("address") != mine["work_order"].pop("address")
    assert other == mine


def test_versions_are_in_no_list_of_calls() -> None:
    assert not any("." in name for name in call_file.names())


@EACH
def test_a_version_differs_in_more_than_its_name_and_stays_within_its_bounds(
    call: str, number: int
) -> None:
    tables = call_file.document(call)
    other = call_file.document(versions.named(call, number))
    assert other["day"] != tables["day"]
    bounds = bounds_of(call, tables, bills_said(subject(call)).ratio)
    assert other["site"]["house"] in bounds.houses
    assert other["site"]["unit"] in bounds.units
    for name, (low, high) in bounds.severity.items():
        assert low - 1e-4 <= other["sealed"]["faults"][name] <= high + 1e-4
    key = sealed(versions.named(call, number)).opened()
    assert set(key.causes) == set(sealed(call).opened().causes)


@EACH
def test_no_word_of_the_parent_s_house_is_left(call: str, number: int) -> None:
    """Names, bills and dollars are the version's own wherever they are said."""
    mine, other = call_file.load(call), call_file.load(versions.named(call, number))
    told = " ".join((other.title, other.complaint, *other.history, *other.answers.values()))
    for name in re.findall(r"\w+", mine.customer):
        assert name == "and" or name not in told
    assert other.answers["read_bill"] != mine.answers["read_bill"]
    paid = set(re.findall(r"\$(\d+)", other.answers["read_bill"]))
    assert set(re.findall(r"\$(\d+)", other.complaint)) <= paid


@pytest.mark.parametrize("call", KEPT if os.environ.get("BENCHCALL_WHOLE") else KEPT[:1])
def test_the_bill_of_a_version_is_the_plant_s(call: str) -> None:
    """Within the rounding of a printed kilowatt hour; computed anew."""
    parent = subject(call)
    for number in range(1, len(versions.recipes(call)) + 1):
        version = subject(versions.named(call, number))
        due, said = bills_due(version, parent), bills_said(version)
        assert said.before == pytest.approx(due.before, rel=0.02)
        assert said.after - said.before == pytest.approx(due.after - due.before, rel=0.05, abs=2.0)


@EVERY
def test_the_parent_s_own_words_come_out_of_its_own_numbers(call: str) -> None:
    """A version that changes nothing says nothing else: the rule that words bills is the call's."""
    whole = subject(call)
    said = bills_said(whole)
    for old, new in bill_words(whole, whole, said).items():
        assert old == new


def test_invented_people_come_as_their_parents_do() -> None:
    assert " and " in invented_names.customer("Gro and Nils Lundgaard", "x", 3)
    assert " and " not in invented_names.customer("Ida Tavener", "x", 3)
    assert invented_names.address("Flat 9, Tanner's Yard, Lower Ebbing", "x", 3).startswith("Flat ")
    for place in (*invented_names.LAST, *invented_names.STREETS, *invented_names.TOWNS):
        assert not any(place in call_file.load(call).address for call in call_file.names())


def test_a_table_of_versions_cuts_no_name() -> None:
    """The longest of a library call: whole, and apart from the column before it."""
    call = max(call_file.names(), key=lambda one: len(call_file.load(one).customer))
    whole = call_file.load(call).customer
    own = Measured(
        difficulty=Difficulty(
            minutes=40.0, entropy=5.0, separation=3.0, faults=1, traps=9, steps=4, words=200
        ),
        scores={"reference": 95.0},
    )
    recipe = versions.recipes(SAMPLE)[0]
    found = variants.Found(
        parent=parent_of(call), own=own, versions=((recipe, own, ()),), rejected=()
    )
    (row,) = [line for line in variants.table(found).splitlines() if line.startswith("customer")]
    other = invented_names.customer(whole, call, 1)
    assert len(whole) > variants.WIDTH - 2
    assert re.split(r" {2,}", row) == ["customer", whole, other]


def test_a_stored_version_is_as_hard_as_its_call() -> None:
    """A sample, of the reference's first play; all of them under BENCHCALL_WHOLE=1."""
    mine, other = subject(SAMPLE), subject(versions.named(SAMPLE, 1))
    assert is_near("separation", separation(mine), separation(other))
    now, then = (plays_of(one, "reference", named=SAMPLE, plays=1) for one in (mine, other))
    assert abs(now.score - then.score) <= 5.0
    assert is_near("entropy", now.entropy, then.entropy)
    assert is_near("minutes", now.minutes, then.minutes)


@pytest.mark.skipif(not os.environ.get("BENCHCALL_WHOLE"), reason="half an hour")
@pytest.mark.parametrize("call", KEPT)
def test_all_stored_versions_are_as_hard_as_their_call(call: str) -> None:
    """Bars of the issue on variants, by all seven parts and all four trainees."""
    parent, plays = parent_of(call), store.kept_plays(call)
    own = measured(parent.subject, named=call, plays=plays)
    for recipe in versions.recipes(call):
        other = measured(made(parent, recipe), named=call, plays=plays)
        assert differences(own, other) == []


@pytest.mark.parametrize("call", KEPT)
def test_what_was_kept_was_within_the_bars(call: str) -> None:
    """By the figures in the file; the tests above ask the plant again."""
    own = store.kept_parent(call)
    assert own is not None
    for other in store.kept(call):
        assert differences(own, other) == []


def test_the_command_prints_call_and_version_side_by_side(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """With the figures of the file in place of half a minute of plays."""
    own, other = store.kept_parent(SAMPLE), store.kept(SAMPLE)[0]
    assert own is not None
    measures = iter((own, other))
    monkeypatch.setattr(variants, "measured", lambda *_, **__: next(measures))
    monkeypatch.setattr("simulator.variants.search.separation", lambda _: own.difficulty.separation)
    recipe = versions.recipes(SAMPLE)[0]
    monkeypatch.setattr(variants, "recipes", lambda _: (recipe,))
    assert main(["variants", SAMPLE, "--stored"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].split() == [SAMPLE, f"{SAMPLE}.1"]
    assert len(lines) >= len(NAMES) + len(own.scores)
    assert f"{own.difficulty.minutes:.2f}" in lines[1]
    assert f"{other.difficulty.minutes:.2f}" in lines[1]


def test_an_unknown_call_is_told_in_a_sentence(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["variants", "nowhere"]) == 2
    assert "nowhere" in capsys.readouterr().err


def test_time_that_is_up_is_told_with_fewer_found(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    own = store.kept_parent(SAMPLE)
    monkeypatch.setattr(variants, "measured", lambda *_, **__: own)
    monkeypatch.setattr("simulator.variants.search.separation", lambda _: 1.0)
    assert main(["variants", SAMPLE, "--count", "2", "--minutes", "0"]) == 1
    assert "0 of 2 wanted, 0 rejected" in capsys.readouterr().err
