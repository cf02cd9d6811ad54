"""Hints cost points of efficiency and of nothing else, and the debrief says how deep they went."""

from dataclasses import replace
from pathlib import Path

import pytest

from simulator.calls import call_file
from simulator.calls.events import Event, Hinted
from simulator.calls.sealed import sealed
from simulator.calls.site import Site
from simulator.calls.visit import fold
from simulator.scoring.grounds import grounds
from simulator.scoring.hints import depth, taken
from simulator.scoring.scorecard import Scorecard, score
from tests.scoring.played import desk_for, good_capstone


@pytest.fixture
def events(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> list[Event]:
    """A call worked well."""
    good_capstone(desk := desk_for("mallorn", tmp_path, monkeypatch))
    return list(desk.visit.events)


def hinted(events: list[Event], *hints: tuple[int, str]) -> list[Event]:
    """The same visit with hints taken just before leaving."""
    *before, last = events
    told = [
        Hinted(seq=last.seq + place, minute=last.minute, rung=rung, about=about, said=("Look.",))
        for place, (rung, about) in enumerate(hints)
    ]
    return [*before, *told, replace(last, seq=last.seq + len(told))]


def parts(card: Scorecard) -> dict[str, float]:
    return {part.name: part.points for part in card.parts}


def test_every_rung_costs_two_points_of_efficiency_alone(events: list[Event]) -> None:
    """Two points a rung, off efficiency only: the rubric's own rule."""
    key = sealed("mallorn").opened()
    site = Site(call_file.load("mallorn"), sealed("mallorn"), 1)
    known = grounds(fold(events), site)
    without = score(events, key, known)
    time = parts(without)["Efficiency"]
    assert time > 2.0
    for count in (1, 2, 6):
        card = score(
            hinted(events, *[(1 + n % 4, "look_filter") for n in range(count)]), key, known
        )
        now = parts(card)
        assert now.pop("Efficiency") == pytest.approx(max(time - 2.0 * count, 0.0))
        assert now == {name: x for name, x in parts(without).items() if name != "Efficiency"}
        (spent,) = [part for part in card.parts if part.name == "Efficiency"]
        blamed = [why.seq for why in spent.because if "Hint" in why.text]
        assert blamed == [
            event.seq for event in hinted(events, *[(1, "look_filter")] * count)[-1 - count : -1]
        ]


def test_the_debrief_says_how_deep_the_hints_went(events: list[Event]) -> None:
    visit = fold(hinted(events, (1, "look_filter"), (2, "look_filter"), (1, "zero_manometer")))
    told = taken(visit)
    assert depth(visit) == 2
    assert told[0]["text"] == "Hints taken: 3. The deepest was a place to look."
    assert [one["seq"] for one in told] == [visit.hints[0].seq, *(e.seq for e in visit.hints[1:])]
    assert told[2]["text"] == "Zero the manometer: up to a question."
    assert taken(fold(events)) == []
    assert depth(fold(events)) == 0
