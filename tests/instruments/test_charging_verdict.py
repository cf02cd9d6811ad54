"""Charging verdicts: California Title 24 RA3.2 (2008 text), unless a test names another source."""

from collections.abc import Callable

import pytest

from simulator.instruments import charging_verdict as charging
from tests.plant.stand import fahrenheit

MILD = fahrenheit(80.0)


@pytest.mark.parametrize(
    ("superheat", "verdict"),
    [(3.9, "fail"), (4.1, "pass"), (18.0, "pass"), (24.9, "pass"), (25.1, "fail")],
)
def test_a_valve_holds_four_to_twenty_five(superheat: float, verdict: str) -> None:
    assert charging.valve_verdict(superheat / 1.8).verdict == verdict


def test_the_makers_range_comes_before_the_common_one() -> None:
    assert charging.valve_verdict(18 / 1.8, (8 / 1.8, 14 / 1.8)).off_by == pytest.approx(4 / 1.8)


@pytest.mark.parametrize(
    ("superheat", "verdict"),
    [(8.9, "fail"), (9.1, "pass"), (14.0, "pass"), (18.9, "pass"), (19.1, "fail"), (21.0, "fail")],
)
def test_an_orifice_has_five_degrees_either_way(superheat: float, verdict: str) -> None:
    assert charging.orifice_verdict(superheat / 1.8, 14 / 1.8, MILD).verdict == verdict


def test_it_says_by_how_much() -> None:
    found = charging.orifice_verdict(21 / 1.8, 14 / 1.8, MILD)
    assert found.off_by == pytest.approx(7 / 1.8)
    assert "+7 °F" in found.reason
    assert "±5 °F" in found.reason


@pytest.mark.parametrize(
    ("subcooling", "verdict"), [(6.9, "fail"), (7.1, "pass"), (12.9, "pass"), (13.1, "fail")]
)
def test_subcooling_has_three_degrees_either_way(subcooling: float, verdict: str) -> None:
    assert charging.subcooling_verdict(subcooling / 1.8, 10 / 1.8, MILD).verdict == verdict


@pytest.mark.parametrize("judge", [charging.orifice_verdict, charging.subcooling_verdict])
def test_no_test_is_valid_below_fifty_five(judge: Callable[..., charging.ChargingVerdict]) -> None:
    cold = judge(14 / 1.8, 14 / 1.8, fahrenheit(54.0))
    assert (cold.verdict, cold.off_by) == ("no valid standard test", None)
    assert "weigh in" in cold.reason
    assert judge(14 / 1.8, 14 / 1.8, fahrenheit(56.0)).verdict == "pass"


def test_a_day_without_an_entry_has_no_test() -> None:
    """The published charging table shows a dash below a target of 5 °F (common practice)."""
    assert charging.orifice_verdict(3 / 1.8, 4.5 / 1.8, MILD).verdict == "no valid standard test"
