"""What readings do to belief on calls of the library; who reads the sheet knows no key."""

import os
import time
from itertools import pairwise

import numpy as np
import pytest

from simulator.calls import actions, call_file
from simulator.calls.choice import NO_FAULT
from simulator.calls.sealed import sealed
from simulator.calls.site import Site
from simulator.calls.visit import Visit, fold
from simulator.diagnosis import belief, interview
from simulator.diagnosis.causes import codes
from simulator.diagnosis.expected import begin, conditions_of, expected, expected_at
from simulator.diagnosis.hypotheses import hypotheses
from simulator.diagnosis.next_reading import next_readings
from simulator.diagnosis.playing import played
from simulator.diagnosis.scatter import Around
from simulator.diagnosis.trainees import reference
from simulator.plant import steady
from simulator.plant.catalogue import load_installation
from simulator.serve.commands.timing.solving import scenarios

BUILT = 2.0  # bar: about 10,000 plants solved and read, on a quiet machine [s]
BESIDE = 3.5  # reading, fitting and looking may take this much of the plain solutions' time [-]
WHOLE = bool(os.environ.get("BENCHCALL_WHOLE"))
CHOSEN = 0.050  # bar: one update and the worth of every next reading [s]


@pytest.fixture(scope="module")
def visit() -> Visit:
    """The reference at work on a strip that is always on."""
    return played(Site(call_file.load("rooke"), sealed("rooke"), 5), reference, _chance())


def _chance() -> np.random.Generator:
    return np.random.default_rng(1)


def test_each_reading_has_its_belief(visit: Visit) -> None:
    found = belief.history(visit, call_file.load("rooke"))
    moved = sorted(event.seq for event in (*visit.readings, *visit.repairs))
    assert visit.repairs
    assert [one.seq for one in found] == [-1, *moved]
    for one in found:
        assert sum(one.sets.values()) == pytest.approx(1.0)
        assert set(one.causes) <= codes()


def test_odds_are_of_a_set_against_its_best_rival(visit: Visit) -> None:
    finding = visit.finding
    assert finding is not None
    before = [b for b in belief.history(visit, call_file.load("rooke")) if b.seq < finding.seq][-1]
    assert before.best == frozenset(finding.causes) == {"strips_on"}
    assert before.odds(finding.causes) >= 1.0
    assert before.odds(("undercharge",)) < -1.0
    assert before.odds((NO_FAULT,)) < 0.0


def test_a_repair_that_mends_leaves_nothing_wrong(visit: Visit) -> None:
    last = belief.history(visit, call_file.load("rooke"))[-1]
    assert last.best == {NO_FAULT}
    assert last.causes[NO_FAULT] > 0.9


def test_two_repairs_in_a_row_both_mend() -> None:
    """Whatever is read after the second: what the first was likely to mend does not come back."""
    call, site = call_file.load("mallorn"), Site(call_file.load("mallorn"), sealed("mallorn"), 5)
    visit = played(site, reference, _chance())
    acts = [event.repair for event in visit.repairs]
    assert sorted(acts) == ["seal_return", "seal_supply"]
    found = {one.seq: one for one in belief.history(visit, call)}
    before = max(seq for seq in found if seq < visit.repairs[0].seq)
    after = found[visit.repairs[-1].seq]
    for cause in ("supply_leak", "return_leak"):
        assert found[before].causes[cause] > 0.9
        assert after.causes[cause] < 0.05
    assert after.best == {NO_FAULT}


def test_careless_takes_buy_less(visit: Visit) -> None:
    """A bare clamp feels the air around it: the same pipe tells less through it."""
    call = call_file.load("sorrel")
    site = Site(call, sealed("sorrel"), 5)
    told = {}
    for way in ("careful", "bare"):
        plan = iter(
            [
                actions.GoTo(place="outdoor_unit"),
                actions.Measure(measurement="liquid_line_temperature", technique=way),
                actions.Declare(causes=(NO_FAULT,), cited=()),
                actions.Close(),
            ]
        )
        done = played(site, lambda *_, plan=plan: next(plan), _chance())
        told[way] = belief.history(done, call)[-1].causes["dirty_outdoor_coil"]
    assert told["careful"] > told["bare"]


def test_what_is_told_shifts_what_is_likely() -> None:
    shifted = interview.factors(("The hedge has grown and the dryer blows there.",))
    assert shifted["dirty_outdoor_coil"] > 1.0
    assert interview.factors(("May: 964 kWh. May: 964 kWh.",))[NO_FAULT] > 1.0
    assert interview.factors(("July: 1,000 kWh. July: 1,400 kWh.",))[NO_FAULT] < 1.0
    assert interview.factors(()) == {}


def test_worth_is_never_negative_and_fades(visit: Visit) -> None:
    call = call_file.load("rooke")
    start = played_up_to(visit, 1)
    later = played_up_to(visit, len(visit.events))
    first, last = (next_readings(belief.standing(v, call), v, call) for v in (start, later))
    assert all(worth.bits >= 0.0 and worth.minutes > 0.0 for worth in (*first, *last))
    assert all(one.rate >= other.rate for one, other in pairwise(first))
    assert max(worth.bits for worth in last) < 0.3 * max(worth.bits for worth in first)


def played_up_to(visit: Visit, count: int) -> Visit:
    return fold(visit.events[:count])


def test_one_update_and_the_worth_of_all_is_quick(visit: Visit) -> None:
    """By the processor's own time: other work on the machine does not count."""
    call = call_file.load("rooke")
    now = played_up_to(visit, visit.finding.seq if visit.finding else 0)
    belief.standing(now, call)
    taken = []
    for _ in range(5):
        start = time.process_time()
        next_readings(belief.standing(now, call), now, call)
        taken.append(time.process_time() - start)
    assert min(taken) <= CHOSEN


def test_a_table_is_worked_out_beside_and_only_once() -> None:
    call = call_file.load("achterberg")
    start = time.perf_counter()
    beside = begin(call)
    assert time.perf_counter() - start < 0.5
    assert expected_at(call) is expected_at(call)
    beside.join(timeout=60.0)
    assert not beside.is_alive()


@pytest.mark.slow
def test_ten_thousand_plants_are_built_quickly() -> None:
    """The bar itself wants a quiet machine and is asked on demand; here the table may take
    no more than its share beside plain solutions of the plant, timed in turn with it."""
    call = call_file.load("mallorn")
    house = load_installation(unit=call.unit, metering=call.metering, house=call.house)
    around, listed = Around(house, conditions_of(call)), hypotheses(call.mode, call.metering)
    installations, conditions = scenarios(5000)
    taken, plain = [], []
    for _ in range(3):
        start = time.process_time()
        expected(around, listed, mode=call.mode)
        taken.append(time.process_time() - start)
        start = time.process_time()
        steady.solve_many(installations, conditions)
        plain.append(time.process_time() - start)
    assert min(taken) <= BESIDE * 2.0 * min(plain)
    assert not WHOLE or min(taken) <= BUILT
