"""The sample of the truth report that every push runs; sources stand in what it checks.

A known miss stands here by name. One that is gone fails, so that the list stays short.
"""

import re
from dataclasses import replace

import numpy as np
import pytest

from simulator.plant import catalogue
from simulator.quantities.values import Array
from tests.truth import (
    bars,
    by_name,
    published,
    report,
    scenarios,
    severity,
    sign_grid,
    size_anchors,
)
from tests.truth.benches import Bench, units
from tests.truth.field import Field
from tests.truth.from_memory import MEMORY_CHECKS
from tests.truth.known import (
    MEMORY_MISSED,
    PUBLISHED_MISSED,
    SIGNS_MISSED,
    SIZES_MISSED,
    SMELLS_MISSED,
    SWEEPS_MISSED,
)
from tests.truth.severity import Sweep
from tests.truth.smell import Smell, Smelt, cells, figures, grouped
from tests.truth.smells import SMELLS
from tests.truth.verdict import State, Verdict

FIELD = Field.sample()


@pytest.mark.parametrize("metering", catalogue.METERING)
@pytest.mark.parametrize("unit", units()[1:])
def test_other_units_miss_what_is_known_and_nothing_else(unit: str, metering: str) -> None:
    bench = Bench(unit, metering)
    found = [published.checked(row, bench) for row in published.asked(bench)]
    missed = {item.id: (item.got, item.expected) for item in found if not item.holds}
    assert missed.keys() == PUBLISHED_MISSED[unit, metering], missed


@pytest.mark.parametrize("bench", report.benches(), ids=lambda bench: bench.label)
def test_rows_from_memory_miss_where_known_and_nowhere_else(bench: Bench) -> None:
    found = published.all_checked([bench], published.MEMORY)
    missed = {item.id: (item.got, item.tolerance) for item in found if not item.holds}
    assert missed.keys() == MEMORY_MISSED[bench.unit, bench.metering], missed


def test_every_row_from_memory_is_asked_and_says_so() -> None:
    kept = published.rows(published.MEMORY)
    assert {row["id"] for row in kept} == MEMORY_CHECKS.keys()
    assert all("from memory" in row["source"] or "no source" in row["source"] for row in kept)


@pytest.mark.parametrize("smell", SMELLS, ids=lambda smell: f"{smell.number:02d}")
def test_it_does_not_smell(smell: Smell) -> None:
    """What breaks on the reference unit is what stands by name, and no more."""
    found = smell.found(FIELD)
    assert found.looked > 0
    assert grouped(found.broken) == SMELLS_MISSED.get(smell.number, ()), found.broken


def test_what_broke_is_named_by_unit_and_fault_without_loss() -> None:
    unit, device = FIELD.units[0], catalogue.METERING[0]
    cell = f"{unit} {device}, undercharge at 50% of its range, 95 °F out, 67 °F WB"
    healthy = f"{unit} {device}, healthy, 95 °F out, 67 °F WB"
    assert grouped((cell, cell.replace("50", "100"), healthy, "a figure 0.4, asked 1")) == (
        f"{unit} {device}, undercharge: 2",
        f"{unit} {device}, healthy: 1",
        "a figure 0.4, asked 1",
    )


def test_all_thirty_five_are_asked() -> None:
    assert [smell.number for smell in SMELLS] == list(range(1, 36))


def test_a_grid_cell_that_is_wrong_is_named() -> None:
    none: Array = FIELD.of("superheat") < -1.0
    assert cells(FIELD, none | True, none).state == "holds"
    wrong = none.copy()
    wrong[0] = True
    assert cells(FIELD, none | True, wrong).broken == (FIELD.named(0),)
    assert cells(FIELD, none, none).state == "misses"  # nothing looked at
    assert figures(share=(0.4, 0.5, 1.0)).state == "misses"
    assert Smelt(looked=0, is_absent=True).state == "absent"


@pytest.mark.parametrize(
    "sweep", severity.sweeps(), ids=lambda one: f"{one.fault}-{one.mode}-{one.metering}"
)
def test_worse_is_worse_but_for_the_known_misses(sweep: Sweep) -> None:
    """A miss that is mended must leave the list, as it must enter it when it is new."""
    found = severity.checked(sweep)
    is_known = (sweep.fault, sweep.mode, sweep.metering) in SWEEPS_MISSED
    assert found.holds is not is_known, found.got


def test_every_turn_has_its_reason_its_source_and_its_size() -> None:
    """A miss may stand by name only with why, from where, and how large it is to the trade."""
    for sweep in severity.sweeps():
        key = (sweep.fault, sweep.mode, sweep.metering)
        if key in SWEEPS_MISSED:
            note = severity.checked(sweep).note
            assert SWEEPS_MISSED[key] in note
            assert "smallest change" in note
            assert re.search(r"\b(19|20)\d\d\b|RP-\d+|from memory|no source", note), note
            assert all(sweep.counts(name) < 1.0 for name in severity.turning(sweep)), note


def test_a_turn_is_sized_by_what_the_trade_counts() -> None:
    sweep = next(one for one in severity.sweeps() if one.fault == "overcharge")
    rises = replace(
        sweep.point,
        state=np.full(13, "running"),
        gross_capacity=np.array([100.0, *range(101, 107), *range(99, 93, -1)], dtype=float),
    )
    turned = replace(sweep, point=rises)
    assert severity.turning(turned)[-1] == "gross_capacity"
    assert turned.counts("gross_capacity") == pytest.approx(6.0 / 5.0)  # it ends below 100
    assert "1 of 1 sweeps turn back, 1 of them" in severity.summed([turned])


def test_signs_over_weather_miss_what_is_known_and_nothing_else() -> None:
    """The bar: somewhere shown and nowhere the other way; sources stand in the rows."""
    seen = sign_grid.seen()
    missed = {one.name: one.wrong for one in seen if not sign_grid.checked(one).holds}
    assert missed.keys() == SIGNS_MISSED.keys(), missed


def test_sizes_of_faults_miss_what_is_known_and_nothing_else() -> None:
    """40 % of what a rough model of the trade moves; common practice, no source."""
    rows = size_anchors.rows()
    found = {
        (row["metering"], size_anchors.name(row), row["reading"]): size_anchors.checked(row)
        for row in rows
    }
    assert len(found) == len(rows)
    missed = {key: (item.got, item.expected) for key, item in found.items() if not item.holds}
    assert missed.keys() == SIZES_MISSED, missed


@pytest.mark.parametrize(
    ("got", "verdict"), [(13.0, "holds"), (13.6, "misses"), (-13.0, "misses"), (5.0, "misses")]
)
def test_a_size_is_judged_by_its_anchor(got: float, verdict: State) -> None:
    row = {"reading": "superheat", "before": "10", "after": "19.5", "mode": "cooling"}
    assert size_anchors.judged(row, got) == verdict


def test_random_scenarios_settle_at_one_root() -> None:
    """The speed is a figure of the machine, so it stands in the report alone."""
    rows = scenarios.verdicts(scenarios.drawn(2000))
    assert [row.got for row in rows if row.id != "speed" and not row.holds] == []


def test_the_page_hides_no_miss_and_fetches_nothing() -> None:
    miss = Verdict(
        id="X1", about="a < b", source="none", where="here", expected="1", got="2",
        tolerance="0", state="misses",
    )  # fmt: skip
    page = report.page([report.Part(title="Part", about="of it", verdicts=[miss])])
    assert "What misses (1)" in page
    assert page.count('class="misses"') == 2
    assert "a &lt; b" in page
    assert "src=" not in page
    assert "href=" not in page
    assert "misses: X1" in report.summary([report.Part(title="P", about="", verdicts=[miss])])


def test_the_table_of_misses_names_each_unit_and_no_check_that_holds() -> None:
    def of(where: str, state: State, got: str) -> Verdict:
        return Verdict(
            id="X1", about="a", source="none", where=where, expected="1", got=got,
            tolerance="0 to 2", state=state,
        )  # fmt: skip

    rows = [of("one", "misses", "3"), of("two", "holds", "1"), of("three", "misses", "4")]
    told = by_name.misses([report.Part(title="P", about="", verdicts=rows)])
    assert told.splitlines()[2:] == ["| X1: a | 0 to 2 | one 3; three 4 |"]


def test_tables_and_the_same_physics_hold_their_bars() -> None:
    """CoolProp, phase imposed, and the same balances on CoolProp and SciPy."""
    found = [*bars.tables(), *bars.same_physics()]
    assert [item for item in found if not item.holds] == []
    assert len(found) == 4 * 6 + 4 * 2


def test_an_hour_of_a_running_unit_is_quick() -> None:
    """The bar is 0.3 s on a quiet machine; a shared one gets three times that."""
    assert bars.hour() < 0.9


def test_a_bar_missed_is_told_as_missed() -> None:
    assert bars.at_most("a: b", "here", 2.0, 1.0, "ms").state == "misses"
    assert bars.at_least("a: b", "here", 2.0, 1.0, "ms").holds
    assert bars.at_least("a: b", "here", 0.5, 1.0, "ms").state == "misses"
