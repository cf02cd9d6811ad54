"""Whether belief is right as often as it says, on units and houses it was not tuned on.

Bars: the project's own for diagnosis. The tests take a sample; the environment variable
``BENCHCALL_WHOLE`` makes them take all kinds of house. A sample proves no bar: it fails where the
bar lies outside two standard errors of what was seen.
"""

import os

import numpy as np
import pytest

from tests.diagnosis.drawn_units import Drawn, drawn

WHOLE = bool(os.environ.get("BENCHCALL_WHOLE"))
KINDS, EACH = (range(10), 50) if WHOLE else ((0, 3), 10)
AFTER_FOUR, AFTER_SIX = 0.70, 0.90  # of first guesses right [-]
LARGE = 0.4  # of the field range [-]
CALIBRATED = 0.05  # belief less frequency, either way [-]


@pytest.fixture(scope="module")
def houses() -> list[Drawn]:
    return [house for kind in KINDS for house in drawn(kind, EACH)]


def missing(rights: list[bool], bar: float) -> float:
    """By how much the bar is missed, beyond what chance explains in a sample."""
    error = np.sqrt(bar * (1.0 - bar) / len(rights))
    return bar - float(np.mean(rights)) - (0.0 if WHOLE else 2.0 * error)


def test_four_well_chosen_readings_mostly_name_what_is_wrong(houses: list[Drawn]) -> None:
    assert missing([house.is_right(4) for house in houses], AFTER_FOUR) <= 0.0


def test_six_name_nearly_every_large_fault(houses: list[Drawn]) -> None:
    large = [house.is_right(6) for house in houses if house.largest > LARGE]
    assert missing(large, AFTER_SIX) <= 0.0


def test_belief_is_right_as_often_as_it_says(houses: list[Drawn]) -> None:
    said = np.array([house.confidence(after) for house in houses for after in (2, 4, 6)])
    right = np.array([house.is_right(after) for house in houses for after in (2, 4, 6)])
    for low, high in ((0.0, 0.5), (0.5, 0.85), (0.85, 1.01)):
        here = (said >= low) & (said < high)
        # Readings of one house lean on each other: three of them count as one.
        error = 0.0 if WHOLE else 2.0 * np.sqrt(0.25 / max(here.sum() / 3.0, 1.0))
        assert abs(said[here].mean() - right[here].mean()) <= CALIBRATED + error, (low, high)


def test_more_readings_tell_more(houses: list[Drawn]) -> None:
    """Mean logarithm of the belief in what is true, after 0, 2, 4 and 6 readings."""
    told = [
        np.mean([np.log10(max(h.beliefs[k].sets.get(h.causes, 0.0), 1e-6)) for h in houses])
        for k in (0, 2, 4, 6)
    ]
    assert told == sorted(told)
