"""How long a reading takes to stand still, held against the plant and the tools' own lag.

A reading stands still where what it lacks of its end is no more than two standard deviations of
what two takes of its tool differ by anyhow.
"""

from collections.abc import Iterator

import numpy as np
import pytest

from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.settling import AT_SPEED, BLOWER_ALONE, settles_after
from simulator.instruments.take import lagged
from simulator.instruments.tools import TOOLS
from simulator.plant import standing, timeline
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.plant.timeline import SETTLED_AFTER, Moment
from tests.plant.stand import installed, weather, winter

SURE = 2.0  # standard deviations of a tool's noise [-]
LONG = 7200.0  # nothing changes any more [s]


def lacking(name: str, made: Installation, held: Conditions, seconds: float) -> float:
    """What a sensor lacks of its end some time after a start, over its tool's noise [-]."""
    item = MEASUREMENTS[name]
    rest = standing.at_rest(made, held)

    def reached(after: float) -> float:
        now = timeline.quasi_steady(made, held, after)
        return lagged(item, TOOLS[item.tool_id], Moment(now=now, before=rest, seconds=after), made)

    return abs(reached(seconds) - reached(LONG)) / TOOLS[item.tool_id].noise


def sites() -> Iterator[tuple[Installation, Conditions]]:
    """Sound and with a loaded filter, in summer and in winter."""
    for filter_loading in (0.0, 8.0):
        made = installed(**({"loaded_filter": filter_loading} if filter_loading else {}))
        yield made, weather()
        yield made, winter()


@pytest.mark.parametrize("name", sorted(BLOWER_ALONE))
def test_what_the_blower_decides_stands_still_after_two_minutes(name: str) -> None:
    assert settles_after(name) == AT_SPEED / 60.0
    for made, held in sites():
        assert lacking(name, made, held, AT_SPEED) <= SURE


def test_a_new_filter_shows_at_the_manometer_at_once() -> None:
    """A filter is changed, and two minutes later its static is worth as much as an hour later."""
    held, item = weather(), MEASUREMENTS["static_after_filter"]
    old, new = (timeline.quasi_steady(one, held, LONG) for one in
                (installed(loaded_filter=8.0), installed()))  # fmt: skip
    tool = TOOLS[item.tool_id]
    shown = lagged(item, tool, Moment(now=new, before=old, seconds=AT_SPEED))
    assert abs(shown - float(new.static_after_filter)) < 0.1 * tool.noise
    assert abs(float(new.static_after_filter) - float(old.static_after_filter)) > 20.0 * tool.noise


@pytest.mark.parametrize(
    "name",
    ["suction_line_temperature", "liquid_pressure", "supply_wet_bulb", "discharge_temperature"],
)
def test_the_circuit_is_still_moving_by_then_and_waits_for_a_quarter_of_an_hour(name: str) -> None:
    """15 minutes: California Title 24 RA3.2."""
    assert settles_after(name) == SETTLED_AFTER / 60.0 == 15.0
    assert lacking(name, installed(), weather(), AT_SPEED) > SURE
    assert lacking(name, installed(), weather(), SETTLED_AFTER) <= SURE


def test_no_other_reading_is_counted_sooner() -> None:
    """Behind the coil it takes a wet coil too; words and amps keep the long wait."""
    others = [name for name in MEASUREMENTS if name not in BLOWER_ALONE]
    assert "static_after_coil" in others
    assert {settles_after(name) for name in others} == {15.0}
    assert all(np.isfinite(settles_after(name)) for name in BLOWER_ALONE)
