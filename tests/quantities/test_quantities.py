"""Units at the edge: conversions against definitions, entries in one sentence."""

import numpy as np
import pytest

from simulator.quantities.entered import BadEntry, entered
from simulator.quantities.kinds import KINDS
from simulator.quantities.shown import from_display, show, to_display

# NIST SP 811, appendix B: exact or to seven digits.
DEFINED = [
    ("temperature", 273.15, 32.0),
    ("temperature", 373.15, 212.0),
    ("temperature_difference", 10.0, 18.0),
    ("gauge_pressure", 6894.757, 1.0),
    ("static_pressure", 249.08891, 1.0),
    ("airflow", 0.4719474, 1000.0),
    ("heat_rate", 3516.853, 12000.0),
    ("mass", 0.45359237, 1.0),
    ("energy", 3.6e6, 1.0),
    ("area", 0.00064516, 1.0),
]


@pytest.mark.parametrize(("kind", "inside", "shown"), DEFINED)
def test_definitions(kind: str, inside: float, shown: float) -> None:
    assert to_display(inside, kind, "us") == pytest.approx(shown, rel=1e-6)
    assert from_display(shown, kind, "us") == pytest.approx(inside, rel=1e-6)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("system", ["us", "si"])
def test_there_and_back(kind: str, system: str) -> None:
    values = np.linspace(1.0, 400.0, 9)
    assert np.allclose(from_display(to_display(values, kind, system), kind, system), values)


def test_minus_is_a_minus_and_nothing_is_a_dash() -> None:
    assert show(-249.08891, "static_pressure").text == "\N{MINUS SIGN}1.00"
    assert show(float("nan"), "current").text == "–"
    assert show(-1e-9, "current").text == "0.0"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "is missing"),
        ("lots", "must be a number"),
        ("nan", "must be a number"),
        ("inf", "must be a number"),
        ("9999", "must be 0.00 to"),
        ("-3", "must be 0.00 to"),
    ],
)
def test_bad_entries_get_one_sentence(text: str, said: str) -> None:
    with pytest.raises(BadEntry, match=said) as problem:
        entered(text, "mass", "us", name="amount", low=0.0, high=1.0)
    sentence = str(problem.value)
    assert sentence.endswith(".")
    assert "amount" in sentence
    assert "lb" in sentence


def test_the_typed_minus_sign_counts() -> None:
    value = entered("\N{MINUS SIGN}4", "temperature", "us", name="air", low=200.0, high=400.0)
    assert value == pytest.approx(253.15)


def test_unknown_kinds_and_systems_are_named() -> None:
    with pytest.raises(ValueError, match="furlong"):
        show(1.0, "furlong")
    with pytest.raises(ValueError, match="imperial"):
        show(1.0, "mass", "imperial")


@pytest.mark.parametrize("system", ["us", "si"])
@pytest.mark.parametrize("end", ["low", "high"])
def test_the_limits_as_printed_can_be_typed(system: str, end: str) -> None:
    ends = {"low": 0.01, "high": 2.5}
    printed = show(ends[end], "small_mass", system).text
    value = entered(printed, "small_mass", system, name="amount", **ends)
    assert value == pytest.approx(ends[end], abs=0.002)


def test_digits_are_not_grouped_by_underscores() -> None:
    with pytest.raises(BadEntry):
        entered("1_0", "mass", "us", name="amount", low=0.0, high=100.0)
