"""Points for measuring: a reading waits as long as what it measures, and no longer."""

from dataclasses import replace

import pytest

from simulator.calls.events import Opened
from simulator.calls.visit import fold
from simulator.scoring.reasoning import weakness
from tests.scoring.made import measured


@pytest.mark.parametrize(
    ("name", "settled", "is_weak"),
    [
        ("register_sum", 5.0, False),
        ("register_sum", 1.0, True),
        ("return_dry_bulb", 5.0, True),  # 15 minutes, California Title 24 RA3.2
        ("return_dry_bulb", 15.0, False),
    ],
)
def test_a_reading_before_it_had_settled_is_weak(name: str, settled: float, is_weak: bool) -> None:
    """The same rule as at the re-test."""
    taken = replace(measured(1, name, 5.0), settled=settled)
    found = weakness(fold([Opened(seq=0, minute=0.0, is_running=True), taken]), taken)
    assert bool(found and "had not settled" in found) is is_weak
