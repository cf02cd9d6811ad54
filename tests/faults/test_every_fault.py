"""One list of checks that every fault passes, whoever adds it."""

from dataclasses import replace
from importlib import import_module
from itertools import product
from typing import Any, get_args

import numpy as np
import pytest

from simulator.faults._base import Family
from simulator.faults._catalogue import UnknownFault, discover, named
from simulator.instruments.steps import STEPS
from simulator.plant import catalogue, steady
from simulator.quantities.kinds import KINDS
from tests.faults.signs import AT, MODE_OF, cases, healthy, observed, signs
from tests.plant.stand import weather, winter

FAULTS = discover()
SIGNS = signs()
EVERY = pytest.mark.parametrize("name", FAULTS)
NAMED = {"running", "high_pressure_trip", "low_pressure_trip", "overload_trip", "compressor_off"}


def with_fault(name: str, amount: float, case: str, metering: str) -> dict[str, float]:
    """What is observed at the rating point, or over the day, with one fault."""
    return observed(named(name, amount).applied_to(healthy(metering, case)), case)


@EVERY
def test_none_of_it_is_healthy(name: str) -> None:
    kind = FAULTS[name]
    for case in cases(kind):
        built = healthy(kind.metering[0], case)
        none = kind.apply(built, 0.0)
        assert none == built or observed(none, case) == pytest.approx(
            observed(built, case), rel=1e-9
        )


@EVERY
def test_the_healthy_installation_is_left_alone(name: str) -> None:
    kind = FAULTS[name]
    for metering in kind.metering:
        built = healthy(metering)
        kept = replace(built)
        worse = named(name, kind.typical).applied_to(built)
        assert built == kept
        assert worse != built


@EVERY
def test_its_effect_grows_with_severity(name: str) -> None:
    kind = FAULTS[name]
    rows = [row for row in SIGNS if row["fault"] == name and row["goes"] != "flat"]
    quantity, case, metering = (rows[0][key] for key in ("quantity", "mode", "metering"))
    fine = observed(healthy(metering, case), case)
    moved = [
        abs(with_fault(name, share * kind.typical, case, metering)[quantity] - fine[quantity])
        for share in (0.25, 0.5, 1.0)
    ]
    if kind.is_all_or_nothing:
        assert 0.0 <= moved[0] <= moved[1] <= moved[2] != 0.0
    else:
        assert moved[0] < moved[1] < moved[2] + 1e-9


@EVERY
def test_it_solves_over_severity_and_weather(name: str) -> None:
    kind = FAULTS[name]
    summer = [weather(out, wet=wet) for out, wet in product((65.0, 95.0, 110.0), (60.0, 68.0))]
    skies = {"cooling": summer, "heating": [winter(out) for out in (17.0, 35.0, 47.0, 62.0)]}
    asked = [
        (named(name, share * kind.high).applied_to(healthy(metering)), sky)
        for share, mode, metering in product((0.1, 0.4, 0.7, 1.0), kind.modes, kind.metering)
        for sky in skies[mode]
    ]
    point = steady.solve_many([one[0] for one in asked], [one[1] for one in asked])
    assert set(np.unique(point.state)) <= NAMED


@pytest.mark.parametrize("row", SIGNS, ids=lambda row: "-".join(list(row.values())[:5]))
def test_each_claimed_sign_appears(row: dict[str, str]) -> None:
    kind = FAULTS[row["fault"]]
    assert MODE_OF.get(row["mode"], row["mode"]) in kind.modes
    assert row["metering"] in kind.metering
    assert row["source"].strip()
    case, metering = row["mode"], row["metering"]
    before = observed(healthy(metering, case), case)[row["quantity"]]
    after = with_fault(kind.id, kind.typical, case, metering)[row["quantity"]]
    scale = 0.3 if "temperature" in row["quantity"] or "heat" in row["quantity"] else 0.0
    least = max(scale, 0.005 * abs(before)) if scale == 0.0 else scale
    if row["quantity"] in ("subcooling",):
        least = 0.3
    if row["goes"] == "flat":
        assert abs(after - before) < 0.2
    else:
        assert row["goes"] in ("up", "down")
        assert (after - before) * (1 if row["goes"] == "up" else -1) > least


@EVERY
def test_it_has_words_and_rows(name: str) -> None:
    kind = FAULTS[name]
    for text in (kind.title, kind.why, kind.measure):
        assert text.strip()
    assert kind.family in get_args(Family)
    assert "References" in (import_module(kind.apply.__module__).__doc__ or "")
    assert any(row["fault"] == name for row in SIGNS)


@EVERY
def test_its_numbers_and_names_can_be_used(name: str) -> None:
    kind = FAULTS[name]
    assert 0.0 == kind.low < kind.typical <= kind.high
    assert kind.typical < kind.high or kind.is_all_or_nothing
    assert kind.kind in KINDS
    assert (kind.kind == "ratio") == bool(kind.counted_in)
    assert 0.0 < kind.prior < float("inf")
    assert set(kind.hazards) <= set(STEPS)
    assert kind.modes
    assert set(kind.modes) <= set(AT)
    assert kind.metering
    assert set(kind.metering) <= set(catalogue.METERING)


def test_every_row_has_a_fault() -> None:
    assert {row["fault"] for row in SIGNS} == set(FAULTS)


@EVERY
def test_it_commutes_with_every_other(name: str) -> None:
    one = named(name, FAULTS[name].typical)
    for other in FAULTS.keys() - {name}:
        two = named(other, FAULTS[other].typical)
        a = flat(two.applied_to(one.applied_to(healthy())))
        b = flat(one.applied_to(two.applied_to(healthy())))
        assert a == pytest.approx(b, rel=1e-12), other


def flat(item: Any) -> list[float]:
    """All numbers of a nested dataclass, in order."""
    if hasattr(item, "__dataclass_fields__"):
        return [x for name in item.__dataclass_fields__ for x in flat(getattr(item, name))]
    if isinstance(item, tuple):
        return [x for part in item for x in flat(part)]
    return [] if isinstance(item, str) else [float(item)]


@pytest.mark.parametrize(
    ("name", "amount", "said"),
    [("plasma_leak", 0.1, "there are: "), ("undercharge", 1.5, "0 to 0.5")],
)
def test_what_cannot_be_is_said_in_one_sentence(name: str, amount: float, said: str) -> None:
    with pytest.raises(UnknownFault, match=said):
        named(name, amount)
