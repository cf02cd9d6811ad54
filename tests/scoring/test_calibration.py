"""Odds given between readings: asked now and then, kept at once, measured by a proper rule.

Brier 1950, from memory: nobody gains by saying other than what they believe.
"""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from simulator.calls.events import Closed, Declared, Opened, Probed
from simulator.calls.probes import AFTER
from simulator.calls.probes import asked as count_asked
from simulator.calls.visit import fold
from simulator.scoring.calibration import STAKE, calibration, skill
from simulator.serve.visits.visits import CallDesk, open_desk
from tests.scoring.made import measured, visit_of
from tests.scoring.played import desk_for, do, go

TRUE = {"loaded_filter": 1.0}
MANY = 48  # causes [-]


def test_certain_and_right_is_one_and_wrong_is_below_zero() -> None:
    assert skill({"loaded_filter": 1.0}, TRUE, MANY) == pytest.approx(1.0)
    assert skill({"undercharge": 1.0}, TRUE, MANY) < -0.9
    assert skill({}, TRUE, MANY) == pytest.approx(0.0)
    assert 0.0 < skill({"loaded_filter": 0.5, "undercharge": 0.3}, TRUE, MANY) < 1.0


@pytest.mark.parametrize("believed", [0.2, 0.55, 0.9])
def test_saying_what_one_believes_is_best(believed: float) -> None:
    """Expected skill over two causes, either of which is true, is highest at the belief."""
    said = np.linspace(0.0, 1.0, 41)
    worth = [
        believed * skill({"loaded_filter": x, "undercharge": 1.0 - x}, TRUE, MANY)
        + (1.0 - believed)
        * skill({"loaded_filter": x, "undercharge": 1.0 - x}, {"undercharge": 1.0}, MANY)
        for x in said
        if 0.05 <= x <= 0.95
    ]
    best = [x for x in said if 0.05 <= x <= 0.95][int(np.argmax(worth))]
    assert best == pytest.approx(believed, abs=0.051)


def test_all_answers_together_win_or_lose_the_stake_and_skipping_costs_nothing() -> None:
    visit = visit_of({"loaded_filter"})
    end = visit.events[-1]
    assert isinstance(end, Closed)

    def given(*causes: str) -> list[float]:
        told = tuple(
            Probed(
                seq=end.seq + n,
                minute=end.minute,
                causes=(cause,) if cause else (),
                shares=(1.0,) if cause else (),
            )
            for n, cause in enumerate(causes)
        )
        return [one.points for one in calibration(replace(visit, events=visit.events + told), TRUE)]

    assert sum(given("loaded_filter", "loaded_filter")) == pytest.approx(-STAKE)
    assert sum(given("undercharge")) > 0.9 * STAKE
    assert given("", "") == []
    # Answering only when sure wins no more than that one answer's share.
    assert sum(given("", "loaded_filter")) == pytest.approx(-STAKE / 2.0)


@pytest.mark.parametrize(("stated_after", "asked"), [(2, 0), (3, 1), (8, 2), (30, 3)])
def test_what_was_asked_is_counted_up_to_the_finding(stated_after: int, asked: int) -> None:
    events = [Opened(seq=0, minute=0.0, is_running=True)]
    events += [measured(seq, "coil_airflow", 5.0 * seq) for seq in range(1, 31)]
    stated = Declared(seq=stated_after + 1, minute=500.0, causes=("loaded_filter",), cited=())
    later = [replace(e, seq=e.seq + 1) for e in events[stated.seq :]]
    assert count_asked(fold([*events[: stated.seq], stated, *later])) == asked


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> CallDesk:
    """The capstone with as many looks taken as the first question waits for."""
    found = desk_for("mallorn", tmp_path, monkeypatch)
    assert not found.view("us")["asks_odds"]
    tests = ["grille_dry_bulb", "grille_wet_bulb", "house_pressure"]
    assert len(tests) == AFTER[0]
    go(found, "return_grille", "", " ".join(tests))
    return found


def test_an_answer_is_kept_at_once_and_takes_no_time(desk: CallDesk) -> None:
    minute = desk.visit.minute
    assert desk.view("us")["asks_odds"]
    do(desk, "probe", causes=["supply_leak", "return_leak"], percents=["60", "25.5"])
    assert desk.visit.minute == minute
    assert not desk.view("us")["asks_odds"]
    again = open_desk(desk._record.token).visit
    (kept,) = [event for event in again.events if isinstance(event, Probed)]
    assert kept.causes == ("supply_leak", "return_leak")
    assert kept.shares == pytest.approx((0.6, 0.255))


def test_put_aside_it_comes_again_after_more_readings(desk: CallDesk) -> None:
    do(desk, "probe", causes=[], percents=[])
    assert not desk.view("us")["asks_odds"]
    go(desk, "air_handler", "", "look_filter look_slot smoke_return listen_blower")
    assert desk.view("us")["asks_odds"]
    do(desk, "declare", causes=["no_fault"], cited=[])
    assert not desk.view("us")["asks_odds"]


@pytest.mark.parametrize(
    ("causes", "percents"),
    [
        (["supply_leak"], ["120"]),
        (["supply_leak", "return_leak"], ["70", "40"]),
        (["supply_leak", "supply_leak"], ["10", "10"]),
        (["supply_leak"], []),
        (["supply_leak"], ["nan"]),
        (["supply_leak"], [None]),
        (["nothing_known"], ["10"]),
        (["supply_leak", "return_leak", "undercharge"], ["10", "10", "10"]),
        ("supply_leak", "10"),
    ],
)
def test_what_makes_no_sense_is_refused_in_a_sentence(
    desk: CallDesk, causes: object, percents: object
) -> None:
    before = desk.visit.events
    answer = desk.act({"do": "probe", "units": "us", "causes": causes, "percents": percents})
    assert answer["problem"].endswith(".")
    assert desk.visit.events == before


def test_nothing_is_asked_before_and_nothing_taken(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    found = desk_for("mallorn", tmp_path, monkeypatch)
    answer = found.act({"do": "probe", "units": "us", "causes": [], "percents": []})
    assert "asks" in answer["problem"]
