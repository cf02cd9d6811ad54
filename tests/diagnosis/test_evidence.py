"""Evidence weights: every cause has some, and they name real measurements."""

from math import hypot
from typing import get_args

import pytest

from simulator.diagnosis.causes import causes, codes, name_of
from simulator.diagnosis.evidence import ENOUGH, evidence, strongest, support, weights
from simulator.faults._base import Sign
from simulator.faults._catalogue import discover, named
from simulator.instruments import sight
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.tools import TOOLS
from simulator.plant import steady
from tests.faults.signs import AT, DAYS, cases, healthy, observed

CLEAR = 2.0  # standard deviations of the tool that a reading must move to be seen to move
STILL = 4.0  # and may move and still be called the same; both common practice, no source


def test_every_cause_can_be_shown_by_some_readings() -> None:
    assert set(weights()) == set(codes())
    for cause, bearing in weights().items():
        assert set(bearing) <= set(MEASUREMENTS)
        assert sum(bearing.values()) >= ENOUGH, cause
        assert strongest(cause) in bearing


def test_no_single_reading_is_enough() -> None:
    for cause, bearing in weights().items():
        for name in bearing:
            assert support(cause, {name: 1.0}) < ENOUGH


def test_a_careless_reading_carries_half() -> None:
    assert support("supply_leak", {"smoke_supply": 0.5}) == 0.5 * support(
        "supply_leak", {"smoke_supply": 1.0}
    )


def test_the_list_reads_in_causal_order() -> None:
    families = list(dict.fromkeys(choice.family for choice in causes()))
    assert families[0] == "Indoor air"
    assert families[-2:] == ["Refrigerant", "No fault"]
    assert name_of("no_fault") == "No fault found"


# What stands in the rooms at a visit is what the days before made of them.
OF_THE_DAY = {
    "room_temperature": "mean_indoor_temperature",
    "room_humidity": "mean_relative_humidity",
}


def day_moves(fault: str, measurement: str, case: str, metering: str) -> float:
    """How far a fault's day moves a reading in the rooms, in standard deviations of the tool."""
    built = healthy(metering, case)
    worse = named(fault, discover()[fault].typical).applied_to(built)
    before, after = (observed(one, case)[OF_THE_DAY[measurement]] for one in (built, worse))
    tool = TOOLS[MEASUREMENTS[measurement].tool_id]
    return (after - before) / hypot(tool.bias, tool.noise, tool.relative_bias * before)


def moves(fault: str, measurement: str, case: str, metering: str) -> float:
    """How far a fault moves a reading, in standard deviations of the tool."""
    item = MEASUREMENTS[measurement]
    assert item.has_number
    built = healthy(metering, case)
    before = item.true_value(built, steady.solve(built, AT[case]))
    worse = named(fault, discover()[fault].typical).applied_to(built)
    after = item.true_value(worse, steady.solve(worse, AT[case]))
    tool = TOOLS[item.tool_id]
    return (after - before) / hypot(tool.bias, tool.noise, tool.relative_bias * before)


def changes_words(fault: str, measurement: str, case: str, metering: str) -> bool:
    """Whether the fault changes what is seen, felt or heard."""
    built = healthy(metering, case)
    worse = named(fault, discover()[fault].typical).applied_to(built)
    return len({sight.words(measurement, one, steady.solve(one, AT[case]), {})
                for one in (built, worse)}) == 2  # fmt: skip


@pytest.mark.parametrize("fault", discover())
def test_the_plant_bears_out_what_the_evidence_claims(fault: str) -> None:
    kind = discover()[fault]
    stands = [(case, metering) for case in cases(kind) if case in AT for metering in kind.metering]
    days = [(case, metering) for case in cases(kind) if case in DAYS for metering in kind.metering]
    for name, (sign, _) in kind.evidence.items():
        assert sign in get_args(Sign)
        item = MEASUREMENTS[name]
        if sign == "seen":
            assert not item.has_number
            assert any(changes_words(fault, name, *stand) for stand in stands), name
        elif sign != "beside":
            moved = [moves(fault, name, *stand) for stand in stands]
            if name in OF_THE_DAY:
                moved += [day_moves(fault, name, *each) for each in days]
            shown = {
                "up": max(moved) > CLEAR and min(moved) > -CLEAR,
                "down": min(moved) < -CLEAR and max(moved) < CLEAR,
                "flat": max(map(abs, moved)) < STILL,
                "moved": max(moved) > CLEAR and min(moved) < -CLEAR,
            }
            assert shown[sign], (name, sign, moved)


def test_something_moves_or_is_seen_under_every_fault() -> None:
    for cause, bearing in evidence().items():
        if cause != "no_fault":
            assert {sign for sign, _ in bearing.values()} - {"flat", "beside"}, cause


def test_the_loaded_filter_is_the_measure_of_all_priors() -> None:
    assert discover()["loaded_filter"].prior == 1.0
