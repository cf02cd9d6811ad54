"""Odds in the debrief: they rise with good readings, use nothing sealed, and end at the repair.

What is built on them is held here too, because one table of odds takes seconds: evidence for and
against, replays, one good path.

Bands of 10 to 1 and 30 to 1: the rubric's own, for repairs that can and cannot be undone.
"""

import math
import re
from pathlib import Path
from typing import Any

import pytest

from simulator.calls.site import Site
from simulator.calls.visit import fold
from simulator.diagnosis.belief import LEAST, Belief
from simulator.diagnosis.causes import name_of
from simulator.scoring.for_and_against import considered, ratio, speaks, spoken
from simulator.scoring.good_path import good_path
from simulator.scoring.odds import band, believed, in_words, likeliest, rival
from simulator.scoring.replay import as_it_stood
from simulator.serve.visits import visits
from simulator.serve.visits.visits import CallDesk
from tests.scoring.played import desk_for, do, good_capstone, hasty_capstone


@pytest.fixture
def capstone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> CallDesk:
    """The capstone, just arrived."""
    return desk_for("mallorn", tmp_path, monkeypatch)


def steps(desk: CallDesk) -> list[dict[str, Any]]:
    """Steps of the timeline that carry odds."""
    steps = desk.debrief("us")["debrief"]["timeline"]
    odds = desk.odds()["odds"]
    return [{**step, "odds": odds[str(step["seq"])]} for step in steps if str(step["seq"]) in odds]


@pytest.mark.parametrize(
    ("odds", "says"),
    [(2.0, "30 to 1"), (1.1, "10 to 1"), (0.6, "suspicion"), (0.0, "even"), (-1.0, "likelier")],
)
def test_bands(odds: float, says: str) -> None:
    """By definition: as decimal logarithms against one rival that lacks it."""
    true, share = frozenset({"undercharge"}), 10.0**odds / (1.0 + 10.0**odds)
    sets = {true: share, frozenset({"overcharge"}): 1.0 - share}
    assert says in band(Belief(seq=0, minute=0.0, sets=sets, causes={}), true)


def test_a_band_says_when_something_beside_it_stayed_open() -> None:
    true, both = frozenset({"loaded_filter"}), frozenset({"loaded_filter", "undercharge"})
    said = [
        band(Belief(seq=0, minute=0.0, sets={true: 0.99 - more, both: more}, causes={}), true)
        for more in (0.4, 0.1)
    ]
    assert all("30 to 1" in one for one in said)
    assert ["beside it stayed open" in one for one in said] == [True, False]


def test_a_lead_over_many_small_rivals_is_not_called_near_certainty() -> None:
    """Own arithmetic: 38 % before a hundred of 0.62 % each is 61 to 1 ahead of each, not of all."""
    true = frozenset({"undercharge"})
    sets = {true: 0.38, **{frozenset({f"rival_{n}"}): 0.0062 for n in range(100)}}
    said = band(Belief(seq=0, minute=0.0, sets=sets, causes={}), true)
    assert said == (
        "More than 30 times as likely as any other explanation: enough even for a costly repair."
    )


def test_bar_words_and_best_reading_tell_the_same_likelihood(capstone: CallDesk) -> None:
    good_capstone(capstone)
    told = {step["seq"]: step["odds"] for step in steps(capstone)}
    best = capstone.odds()["turns"][0]
    shares = [told[seq]["share"] for seq in sorted(told) if seq <= best["seq"]][-2:]
    before, after = re.findall(r"(\d+) %", best["text"])
    assert [float(before), float(after)] == [pytest.approx(100 * s, abs=1.05) for s in shares]
    for odds in told.values():
        for words, least in (("Better than 30", 30 / 31), ("Better than 10", 10 / 11)):
            assert words not in odds["words"] or odds["share"] >= least - 0.001


def test_good_readings_raise_the_odds_and_the_repair_ends_them(capstone: CallDesk) -> None:
    good_capstone(capstone)
    told = steps(capstone)
    assert told[0]["odds"]["share"] < 0.2
    assert told[-1]["odds"]["share"] > 0.9
    assert "30 to 1" in [step["odds"]["words"] for step in told if step["odds"]["words"]][-1]
    assert told[-1]["seq"] < capstone.visit.repairs[0].seq


def test_hasty_readings_do_not(capstone: CallDesk) -> None:
    hasty_capstone(capstone)
    assert steps(capstone)[-1]["odds"]["share"] < 0.5


def test_a_rival_is_named_as_long_as_the_lead_is_small() -> None:
    """Own arithmetic: 5 to 3 is a small lead, 98 to 1 is none to doubt."""
    filter_alone, both = frozenset({"loaded_filter"}), frozenset({"loaded_filter", "undercharge"})
    small = Belief(seq=0, minute=0.0, sets={filter_alone: 0.5, both: 0.3}, causes={})
    large = Belief(seq=0, minute=0.0, sets={filter_alone: 0.98, both: 0.01}, causes={})
    assert name_of("undercharge") in rival(small, filter_alone) != likeliest(small)
    assert "the same" in rival(small, filter_alone)
    assert name_of("undercharge") in in_words(both)
    # Where something else leads, that is the rival, and it is named as the likeliest.
    assert rival(small, both) == ""
    assert rival(large, filter_alone) == ""


def test_the_best_reading_is_one_that_was_taken(capstone: CallDesk) -> None:
    good_capstone(capstone)
    turns = capstone.odds()["turns"]
    taken = {event.seq for event in capstone.visit.readings}
    assert turns[0]["text"].startswith("What moved the odds most")
    assert {turn["seq"] for turn in turns} <= taken


def test_an_open_visit_tells_no_odds(capstone: CallDesk) -> None:
    assert set(capstone.odds()) == {"problem"}


def test_the_table_of_causes_says_who_spoke_for_what(capstone: CallDesk) -> None:
    """Weights of a cause add up to what its odds moved; the truth is carried, its rival is not."""
    do(capstone, "mark", cause="undercharge", **{"as": "likely"})
    do(capstone, "mark", cause="overcharge", **{"as": "ruled_out"})
    good_capstone(capstone)
    site, visit = capstone._site, capstone.visit
    true = ("supply_leak", "return_leak")
    out = [cause for cause, mark in visit.marks.items() if mark == "ruled_out"]
    assert considered(visit, true) == [*true, "undercharge", *out]
    assert "overcharge" in out
    beliefs = believed(visit, site)
    for cause in true:
        before, after = (
            math.log10(max(b.causes[cause], LEAST) / max(1.0 - b.causes[cause], LEAST))
            for b in (beliefs[0], beliefs[-1])
        )
        spoke = spoken(cause, visit, beliefs)
        assert sum(one.weight for one in spoke) == pytest.approx(after - before)
        assert len(spoke) == len(beliefs) - 1
    rows = {row["name"]: row for row in capstone.odds()["causes"]}
    assert len(rows) == 3 + len(out)
    leak, charge = (rows[name_of(cause)] for cause in ("return_leak", "undercharge"))
    assert leak["together"] == "Together your readings spoke strongly for it."
    assert charge["together"] == "Together your readings spoke strongly against it."
    assert charge["standing"] == "You marked it likely. It was not so."
    assert any(line["text"].startswith("Smoke along the return") for line in leak["speak_for"])
    assert all("multiplied" in line["detail"] for line in leak["speak_for"])
    assert {line["seq"] for line in charge["speak_against"]} <= {e.seq for e in visit.readings}


@pytest.mark.parametrize(
    ("weight", "says", "detail"),
    [
        (1.2, "Speaks strongly for it.", "odds multiplied by 16"),
        (0.6, "Speaks for it.", "odds multiplied by 4"),
        (0.2, "Leans towards it.", "odds multiplied by 1.6"),
        (-0.2, "Leans away from it.", "odds divided by 1.6"),
        (-5.0, "Speaks strongly against it.", "odds divided by more than 1,000"),
    ],
)
def test_words_stand_for_the_ratio(weight: float, says: str, detail: str) -> None:
    assert speaks(weight) == says
    assert ratio(weight) == detail


def measured_then(desk: CallDesk, minute: float, test: str) -> dict[str, Any]:
    """One replay by whoever worked the visit."""
    answer = desk.replay({"minute": minute, "test": test, "units": "us"}, "trainee-of-the-tests")
    assert "problem" not in answer, answer.get("problem")
    found: dict[str, Any] = answer["replay"]
    return found


def test_a_replay_measures_the_house_of_that_minute(capstone: CallDesk) -> None:
    """Before the repair it shows the leak, after it it does not, and nothing is stored."""
    capstone._site = Site(capstone._site.call, capstone._site.key, 12345)
    good_capstone(capstone)
    visit, site = capstone.visit, capstone._site
    events = visit.events
    sealed = next(event for event in visit.repairs if event.repair == "seal_return")
    before = measured_then(capstone, visit.finding.minute, "smoke_return")
    assert before["words"] == "Smoke is snatched into the joints; a hand feels the pull."
    after = measured_then(capstone, sealed.minute + 30.0, "smoke_return")
    assert after["words"] == "Smoke drifts past the joints; hardly a wisp is drawn in."
    assert "first repair only" in after["moved"]
    # The same number as the plant gives, within what the tool may be off.
    shown = measured_then(capstone, 15.0, "register_sum")
    then = as_it_stood(visit, 15.0)
    truth = float(site.moment(then, 15.0).now.register_airflow) * 2118.88
    assert float(shown["shown"].replace(",", "")) == pytest.approx(truth, rel=0.1)
    assert shown["after_it"] > shown["before"]
    assert capstone.visit.events == events
    assert fold(visits.records().events(capstone.record.token)).events == events


def test_a_replay_at_the_start_knows_the_work_order_alone(capstone: CallDesk) -> None:
    good_capstone(capstone)
    told = measured_then(capstone, 0.0, "smoke_return")
    assert told["before"] == steps(capstone)[0]["odds"]["share"]
    assert "Arrived" in told["after"]
    assert measured_then(capstone, 0.0, "smoke_return") == told


def test_one_good_path_finds_what_was_true_and_says_why(capstone: CallDesk) -> None:
    good_capstone(capstone)
    path = capstone.good_path()["path"]
    assert "it comes to what was true" in path["said"]
    minutes = [step["minute"] for step in path["steps"]]
    assert minutes == sorted(minutes)
    assert path["steps"][0]["why"]
    assert any(step["why"].startswith("Tells most for its") for step in path["steps"])
    assert any("only a pair proves" in step["why"] for step in path["steps"])
    assert good_path(capstone._site, "us") == path
