"""Evidence weights: every cause has some, and they name real measurements."""

from simulator.diagnosis.causes import causes, codes, name_of
from simulator.diagnosis.evidence import ENOUGH, strongest, support, weights
from simulator.instruments.measurements import MEASUREMENTS


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
