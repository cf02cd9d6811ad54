"""The plant against published values; each row of the table names its source."""

import numpy as np
import pytest

from simulator.plant import standing
from simulator.plant.catalogue import METERING, load_installation
from tests.plant.stand import installed, weather
from tests.truth import published
from tests.truth.benches import Bench
from tests.truth.charging_rule import OUTDOORS, WET_BULBS, rule_grid, rule_verdicts

BENCHES = [Bench(metering=device) for device in METERING]
ASKED = [(row, bench) for bench in BENCHES for row in published.asked(bench)]


@pytest.mark.parametrize(
    ("row", "bench"), ASKED, ids=lambda part: part["id"] if isinstance(part, dict) else part.label
)
def test_it_is_inside_its_tolerance(row: published.Row, bench: Bench) -> None:
    found = published.checked(row, bench)
    assert found.holds, (found.got, found.tolerance, found.source)


def test_every_published_check_is_asked_and_has_a_source() -> None:
    rows = published.rows()
    assert {row["id"] for row, _ in ASKED} == {row["id"] for row in rows}
    assert all(row["source"] for row in rows)


@pytest.mark.parametrize(
    ("number", "got"),
    [
        ("P01", (0.845,)),
        ("P17", (11.19,)),
        ("P25", "fail: 4 to 25 F"),
        ("P29", (118.4, 366.0)),
        ("P30", (22.0, 18.9)),
        ("P30", (23.1, 21.0)),
    ],
)
def test_a_value_outside_is_a_miss(number: str, got: published.Values | str) -> None:
    """The judge itself, at values just beyond each kind of limit."""
    (row,) = [row for row in published.asked(BENCHES[0]) if row["id"] == number]
    assert published.judged(row, got) == "misses"


def test_air_adds_to_the_standing_pressure() -> None:
    """Dalton: the note of P28."""
    mild = weather(80.0)
    clean = standing.at_rest(load_installation(), mild)
    with_air = standing.at_rest(installed(non_condensables=30.0), mild)
    assert with_air.suction_pressure > clean.suction_pressure + 3.0 * 6894.757


def test_orifice_superheat_follows_the_charging_rule() -> None:
    """Common practice; the bars are the project's own."""
    assert [item.got for item in rule_verdicts(Bench(metering="orifice")) if not item.holds] == []


def test_a_valve_holds_its_superheat_over_the_same_weather() -> None:
    """Common practice: only an orifice has a target that moves with weather."""
    grid = rule_grid(Bench(metering="txv"))
    rows = [WET_BULBS.index(wet) for wet in (57, 60, 62, 64, 67, 70, 72, 75)]
    columns = [OUTDOORS.index(outdoor) for outdoor in range(65, 116, 10)]
    cells = np.ix_(rows, columns)
    found = grid.superheat[cells][grid.target[cells] >= 5.0]
    assert found.max() - found.min() < 4.0
