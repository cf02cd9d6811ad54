"""The public list of causes: whole, in one order, and each can be shown."""

import math
import subprocess
import sys

import pytest

from simulator.calls.choice import NO_FAULT
from simulator.diagnosis.causes import FAMILIES, causes, codes, name_of
from simulator.diagnosis.evidence import ENOUGH, support, weights
from simulator.faults._catalogue import discover
from simulator.instruments.measurements import MEASUREMENTS

IN_ORDER = "from simulator.diagnosis.causes import causes; print(*(c.code for c in causes()))"


def test_every_fault_is_listed_once_and_no_fault_last() -> None:
    listed = [cause.code for cause in causes()]
    assert len(listed) == len(set(listed))
    assert set(listed) == set(codes()) == {*discover(), NO_FAULT}
    assert listed[-1] == NO_FAULT
    assert len({cause.name for cause in causes()}) == len(listed)


def test_the_order_is_the_same_in_every_process() -> None:
    for seed in ("0", "1", "4711"):
        told = subprocess.run(
            [sys.executable, "-c", IN_ORDER],
            capture_output=True,
            check=True,
            text=True,
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": ":".join(sys.path)},
        )
        assert told.stdout.split() == [cause.code for cause in causes()]


def test_families_stand_together_and_names_in_order() -> None:
    rows = [cause for cause in causes() if cause.code != NO_FAULT]
    assert {cause.family for cause in rows} <= set(FAMILIES)
    wanted = sorted(rows, key=lambda cause: (FAMILIES.index(cause.family), cause.name))
    assert rows == wanted


def test_names_are_those_of_the_faults() -> None:
    for code, kind in discover().items():
        wording = kind.cause or kind.title
        assert name_of(code) == wording
        assert wording.strip() == wording != ""
    with pytest.raises(StopIteration):
        name_of("gremlins")


@pytest.mark.parametrize("cause", sorted(codes()))
def test_every_cause_rests_on_real_measurements(cause: str) -> None:
    bearing = weights()[cause]
    assert len(bearing) >= 2
    assert set(bearing) <= set(MEASUREMENTS)
    assert all(math.isfinite(weight) and 0.0 < weight < ENOUGH for weight in bearing.values())
    assert support(cause, dict.fromkeys(bearing, 1.0)) == 1.0
    assert support(cause, {}) == 0.0
    assert support(cause, dict.fromkeys(set(MEASUREMENTS) - set(bearing), 1.0)) == 0.0


def test_a_cause_there_is_not_is_carried_by_nothing() -> None:
    assert support("gremlins", dict.fromkeys(MEASUREMENTS, 1.0)) == 0.0
    assert set(weights()) == set(codes())
