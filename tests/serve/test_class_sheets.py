"""Item statistics, the class debrief and stuck points, on made-up and played visits."""

from itertools import pairwise
from pathlib import Path
from statistics import mean

import pytest

from simulator.instruments.measurements import MEASUREMENTS
from simulator.scoring.best_question import told_most
from simulator.scoring.grounds import grounds
from simulator.scoring.odds import believed, gained
from simulator.scoring.truth import shares
from simulator.serve.classes.files import class_records, class_visits, overrides
from simulator.serve.instructor import class_board, class_debrief, class_debrief_pages, class_sheets
from simulator.serve.instructor.form_sheet import form_sheet
from simulator.serve.instructor.item_statistics import Response, item_rest, items
from simulator.serve.visits import graded, visits
from simulator.serve.visits.closed_visits import site_for_paper
from tests.scoring.played import do, good_capstone, hasty_capstone


def test_item_statistics_are_the_textbook_ones() -> None:
    """Worked by hand: p is the mean share; r of (1,2,3) with (2,4,6) is 1, reversed -1."""
    told = [
        Response(trainee=t, call=call, points=points, minutes=10.0 * points, has_harm=t == "a",
                 wrong=("undercharge",) if t != "c" else (), hint_depth="abc".index(t) * 2)
        for call, scores in (("x", (10.0, 20.0, 30.0)), ("y", (60.0, 40.0, 20.0)))
        for t, points in zip("abc", scores, strict=True)
    ]  # fmt: skip
    x, y = items(["x", "y"], [*told, Response(trainee="d", call="x", points=None)])
    assert x.p == pytest.approx(0.2)
    assert x.r == pytest.approx(-1.0)
    assert (x.closed, x.left_open) == (3, 1)
    assert x.minutes == 200.0
    assert x.harm == pytest.approx(1 / 3)
    assert x.hint_depth == 2.0  # median of 0, 2 and 4
    assert x.distractors == (("undercharge", 2),)
    assert x.is_flagged
    assert x.is_provisional
    assert y.left_open == 0


def test_an_item_is_compared_with_the_others_alone() -> None:
    same = {"x": {"a": 1.0, "b": 2.0, "c": 3.0}}
    assert item_rest("x", same) is None
    assert item_rest("x", {**same, "y": {"a": 5.0, "b": 5.0, "c": 5.0}}) is None
    assert item_rest("x", {**same, "y": {"a": 2.0, "b": 4.0, "c": 6.0}}) == pytest.approx(1.0)
    assert item_rest("x", {**same, "y": {"a": 2.0, "b": 4.0}}) is None


@pytest.mark.parametrize("sign", ["=", "+", "-", "@", "\t", "\r", "\n", " ="])
def test_no_cell_is_a_formula(sign: str) -> None:
    """OWASP, CSV injection, from memory: these signs begin what a spreadsheet carries out."""
    assert f"'{sign}1+1".encode() in class_sheets.sheet(["a"], [[f"{sign}1+1"]]).encode()
    assert "'" not in class_sheets.sheet(["a"], [[-1.5]])


@pytest.fixture
def played(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    """A class in which one worked well, one hastily, and one has not closed."""
    monkeypatch.setenv("BENCHCALL_DATA", str(tmp_path))
    visits.records.cache_clear()
    code = class_records().open_class("A", ["mallorn"]).code
    for trainee, name in (("t-good-one", "Ana"), ("t-hasty-one", "Ben"), ("t-third-one", "Cay")):
        class_records().join(code, trainee, name)
        token = visits.start_visit("mallorn", trainee)
        class_visits().note(token, "mallorn", trainee)
        desk = visits.open_desk(token)
        if name == "Ana":
            good_capstone(desk)
            desk.odds()
        elif name == "Ben":
            hasty_capstone(desk)
            desk.odds()
            overrides().add(token, 45.0, "=the power went out")
        else:
            do(desk, "measure", test="ask_when", technique="careful")
            for _ in range(6):
                do(desk, "measure", test="ask_changed", technique="careful")
    return code


def test_sheets_debrief_and_board_of_a_played_class(played: str) -> None:
    own = class_records().by_code(played)
    book = class_sheets.gradebook(own)
    assert "'=the power went out" in book
    assert ",45.0," in book
    item = class_sheets.item_sheet(own)
    assert "provisional" in item
    assert "fewer than 5 visits chose so often" in item
    assert "It takes 3 who closed another call too" in item
    form = form_sheet(own)
    assert "It takes 10 who closed every call" not in form  # one call only
    assert form.count("It takes two calls that somebody closed.") == 6
    assert "(1)" in item  # the hasty one's wrong cause
    rows = class_board.board(own)
    assert [row.stuck for row in rows] == ["", "", "measures the same again"]
    done = [visits.open_desk(row.token).visit for row in rows[:2]]
    told = class_debrief.class_debrief(done, site_for_paper("mallorn"))
    assert {one["name"] for one in told["chased"] if one["is_true"] and one["chased"] == 1}
    assert any(not one["is_true"] and one["stated"] == 1 for one in told["chased"])
    question = class_debrief.class_question(
        [(visit, site_for_paper("mallorn")) for visit in done], site_for_paper("mallorn")
    )
    assert question["name"] in {MEASUREMENTS[e.reading.measurement].name for e in done[0].readings}
    assert "asked by 1 of 2" in question["said"]
    assert "raised the odds of that about" in question["said"]
    assert [way["letter"] for way in told["ways"]] == ["A", "B"]
    for word in ("Ana", "Ben", "Seat", "points", "Topped off"):
        assert word not in str(told)


def test_what_each_choice_gave_away_is_kept_with_the_result(played: str) -> None:
    rows = class_board.board(class_records().by_code(played))
    desk = visits.open_desk(rows[0].token)
    card = graded.stored(rows[0].token)
    known = grounds(desk.visit, desk._site)
    assert card is not None
    assert card.regrets == tuple(round(choice.regret, 3) for choice in known.choices)
    assert len(card.regrets) > 3
    assert rows[0].regrets == card.regrets
    assert class_debrief_pages.choices(rows) == []  # nobody is seen in a mean of two


def test_the_best_question_is_the_one_that_moved_the_odds_most(played: str) -> None:
    """Held against the odds of each visit itself, reading by reading."""
    rows = class_board.board(class_records().by_code(played))[:2]
    done, site = [visits.open_desk(row.token).visit for row in rows], site_for_paper("mallorn")
    true = frozenset(shares(site.key.opened()))
    moved: dict[str, list[float]] = {}
    for visit in done:
        taken = {event.seq: event.reading.measurement for event in visit.readings}
        for before, after in pairwise(believed(visit, site)):
            if after.seq in taken:  # not where a repair moved them
                moved.setdefault(taken[after.seq], []).append(gained(before, after, true))
    best = told_most([(visit, site) for visit in done])
    assert best is not None
    assert best.gain == pytest.approx(max(mean(gains) for gains in moved.values()), abs=0.01)
    assert mean(moved[best.measurement]) == pytest.approx(best.gain)
    assert told_most([]) is None
    told = class_debrief.class_question([], site)
    assert told["name"] == ""


def test_the_three_ways_differ_most_and_no_score_is_asked(played: str) -> None:
    rows = class_board.board(class_records().by_code(played))
    good, hasty, third = (visits.open_desk(row.token).visit for row in rows)
    assert class_debrief.unlikeness(good, good) == 0.0
    assert class_debrief.unlikeness(good, hasty) == 1.0
    chosen = class_debrief.contrasting([good, good, hasty, third, good])
    assert len(chosen) == 3
    assert {id(one) for one in chosen} == {id(good), id(hasty), id(third)}
    assert class_debrief.contrasting([good, hasty, good]) == [good, hasty]
    assert class_debrief.contrasting([good, good]) == [good]
