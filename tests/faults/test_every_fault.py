"""One list of checks that every fault passes, whoever adds it."""

from dataclasses import replace
from itertools import combinations
from typing import Any

import numpy as np
import pytest

from simulator.faults._base import Fault
from simulator.faults._catalogue import UnknownFault, discover, named
from simulator.plant import catalogue, steady
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from tests.conftest import reference_table
from tests.plant.stand import weather

FAULTS = discover()
SIGNS = reference_table("fault_signs")
EVERY = pytest.mark.parametrize("name", FAULTS)
TRIPS = {"running", "high_pressure_trip", "low_pressure_trip"}


def healthy(metering: str = "txv") -> Installation:
    """The reference installation."""
    return catalogue.load_installation(metering=metering)


def with_fault(name: str, amount: float, metering: str = "txv") -> OperatingPoint:
    """Settled at the rating point with one fault."""
    return steady.solve(named(name, amount).applied_to(healthy(metering)), weather())


def numbers(point: OperatingPoint) -> dict[str, float]:
    """All plain numbers of an operating point."""
    return {
        name: float(getattr(point, name))
        for name in point.__dataclass_fields__
        if name not in ("state", "register_airflows")
    }


@EVERY
def test_none_of_it_is_healthy(name: str) -> None:
    built = healthy()
    assert named(name, 0.0).applied_to(built) == built or numbers(
        steady.solve(named(name, 0.0).applied_to(built), weather())
    ) == pytest.approx(numbers(steady.solve(built, weather())), rel=1e-9)


@EVERY
def test_the_healthy_installation_is_left_alone(name: str) -> None:
    built = healthy()
    kept = replace(built)
    worse = named(name, FAULTS[name].typical).applied_to(built)
    assert built == kept
    assert worse != built


@EVERY
def test_its_effect_grows_with_severity(name: str) -> None:
    kind = FAULTS[name]
    fine = numbers(steady.solve(healthy(), weather()))
    rows = [row for row in SIGNS if row["fault"] == name and row["goes"] != "flat"]
    quantity = rows[0]["quantity"]
    metering = rows[0]["conditions"]
    fine = numbers(steady.solve(healthy(metering), weather()))
    moved = [
        abs(numbers(with_fault(name, share * kind.typical, metering))[quantity] - fine[quantity])
        for share in (0.25, 0.5, 1.0)
    ]
    assert moved[0] < moved[1] < moved[2] + 1e-9


@EVERY
def test_it_solves_over_severity_and_weather(name: str) -> None:
    kind = FAULTS[name]
    cases = [
        (named(name, share * kind.high).applied_to(healthy(metering)), weather(outdoor, wet=wet))
        for share in (0.1, 0.4, 0.7, 1.0)
        for outdoor in (65.0, 95.0, 110.0)
        for wet in (60.0, 68.0)
        for metering in ("txv", "orifice")
    ]
    point = steady.solve_many([case[0] for case in cases], [case[1] for case in cases])
    assert set(np.unique(point.state)) <= TRIPS


@pytest.mark.parametrize("row", SIGNS, ids=lambda row: "-".join(list(row.values())[:4]))
def test_each_claimed_sign_appears(row: dict[str, str]) -> None:
    name = row["fault"]
    before = numbers(steady.solve(healthy(row["conditions"]), weather()))[row["quantity"]]
    after = numbers(with_fault(name, FAULTS[name].typical, row["conditions"]))[row["quantity"]]
    scale = 0.3 if "temperature" in row["quantity"] or "heat" in row["quantity"] else 0.0
    least = max(scale, 0.005 * abs(before)) if scale == 0.0 else scale
    if row["quantity"] in ("subcooling",):
        least = 0.3
    if row["goes"] == "flat":
        assert abs(after - before) < 0.2
    else:
        assert (after - before) * (1 if row["goes"] == "up" else -1) > least


@EVERY
def test_it_has_words_and_rows(name: str) -> None:
    kind = FAULTS[name]
    for text in (kind.title, kind.family, kind.why, kind.measure):
        assert text.strip()
    assert "References" in (kind.__doc__ or "")
    assert any(row["fault"] == name for row in SIGNS)
    assert 0.0 == kind.low < kind.typical < kind.high


def test_every_row_has_a_fault() -> None:
    assert {row["fault"] for row in SIGNS} == set(FAULTS)


def test_pairs_commute() -> None:
    for first, second in combinations(FAULTS, 2):
        one, two = (named(name, FAULTS[name].typical) for name in (first, second))
        a = flat(two.applied_to(one.applied_to(healthy())))
        b = flat(one.applied_to(two.applied_to(healthy())))
        assert a == pytest.approx(b, rel=1e-12), (first, second)


def flat(item: Any) -> list[float]:
    """All numbers of a nested dataclass, in order."""
    if hasattr(item, "__dataclass_fields__"):
        return [x for name in item.__dataclass_fields__ for x in flat(getattr(item, name))]
    if isinstance(item, tuple):
        return [x for part in item for x in flat(part)]
    return [] if isinstance(item, str) else [float(item)]


@pytest.mark.parametrize(
    ("name", "amount", "said"),
    [("plasma_leak", 0.1, "there are: dirty_outdoor_coil"), ("undercharge", 1.5, "0 to 0.5")],
)
def test_what_cannot_be_is_said_in_one_sentence(name: str, amount: float, said: str) -> None:
    with pytest.raises(UnknownFault, match=said):
        named(name, amount)


def test_the_base_fault_changes_nothing_silently() -> None:
    with pytest.raises(TypeError):
        Fault(0.1).applied_to(healthy())
