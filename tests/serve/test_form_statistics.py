"""Reliability, and whether language matters: held against worked examples and other formulas."""

from itertools import cycle
from math import exp, log
from statistics import fmean

import numpy as np
import pytest
from scipy import stats

from simulator.serve.instructor.form_sheet import complete, means_by_language
from simulator.serve.instructor.form_statistics import (
    FEWEST,
    Told,
    alpha,
    calls_needed,
    error_of_mean,
    expected_of,
    language_difference,
    lengthened,
    mantel_haenszel,
    mean_difference,
)
from simulator.serve.instructor.item_statistics import (
    FEWEST_CHOICES,
    Response,
    items,
    regret_curve,
    wide,
)

# Worked by hand, four persons and three items: variances of 5/3, 11/12 and 5/3 against one of
# 49/4 of the sums, so that alpha is 3/2 (1 - 17/49) = 48/49.
BY_HAND = [(4, 5, 4), (3, 4, 3), (5, 5, 5), (2, 3, 2)]
# Bickel, Hammel, O'Connell 1975, admissions to Berkeley by department, men and then women; R's
# documentation of mantelhaen.test gives their common odds as 0.9046968, from memory.
BERKELEY = [
    (512.0, 313.0, 89.0, 19.0), (353.0, 207.0, 17.0, 8.0), (120.0, 205.0, 202.0, 391.0),
    (138.0, 279.0, 131.0, 244.0), (53.0, 138.0, 94.0, 299.0), (22.0, 351.0, 24.0, 317.0),
]  # fmt: skip


def drawn(persons: int, calls: int, seed: int = 3) -> list[list[float]]:
    """People who differ, and calls that differ for each of them."""
    chance = np.random.default_rng(seed)
    able = chance.normal(65.0, 12.0, (persons, 1))
    rows: list[list[float]] = (able + chance.normal(0.0, 18.0, (persons, calls))).tolist()
    return rows


def test_alpha_is_the_one_worked_by_hand() -> None:
    rows = [row for row in BY_HAND for _ in range(3)]  # the same people thrice: variances keep
    found = alpha(rows)
    assert found.value == pytest.approx(48.0 / 49.0)
    assert found.count == 12
    assert alpha(BY_HAND).value is None
    assert str(FEWEST) in alpha(BY_HAND).why


def test_why_there_is_no_alpha_is_what_is_wanting() -> None:
    """Of several calls that nobody closed all of, more calls are not what it takes."""
    assert alpha([]).why == alpha(BY_HAND).why != alpha([(70.0,)] * FEWEST).why


@pytest.mark.parametrize(("persons", "calls"), [(12, 2), (20, 6), (60, 10)])
def test_alpha_is_what_an_analysis_of_variance_gives(persons: int, calls: int) -> None:
    """Hoyt 1941, from memory: 1 less what is left over, by persons, of two-way variance."""
    rows = np.array(drawn(persons, calls))
    whole, own = rows.mean(), rows.mean(axis=1, keepdims=True)
    left = rows - own - rows.mean(axis=0) + whole
    between = calls * ((own - whole) ** 2).sum() / (persons - 1)
    residual = (left**2).sum() / ((persons - 1) * (calls - 1))
    found = alpha(rows.tolist())
    assert found.value == pytest.approx(1.0 - residual / between)
    assert found.low is not None
    assert found.high is not None
    # Feldt 1965 by quantiles of F: another interval for the same.
    of_f = stats.f(persons - 1, (persons - 1) * (calls - 1))
    feldt = [1.0 - (1.0 - found.value) * float(of_f.ppf(q)) for q in (0.975, 0.025)]
    assert (found.low, found.high) == pytest.approx(feldt, abs=0.25 / persons**0.5)


def test_the_interval_is_as_wide_as_published() -> None:
    """The help of R's statpsych: alpha 0.85, 7 items, 89 persons: 0.797 to 0.893, by Feldt.

    Bonett's is reckoned otherwise and lies within 0.005 of it.
    """
    spread = exp(1.96 * (2.0 * 7.0 / (6.0 * 87.0)) ** 0.5)
    assert 1.0 - 0.15 * spread == pytest.approx(0.7971, abs=0.005)
    rows = drawn(89, 7)
    found = alpha(rows)
    assert found.value is not None
    assert found.low == pytest.approx(1.0 - (1.0 - found.value) * spread, abs=1e-4)


@pytest.mark.parametrize(("calls", "told"), [(1, 0.28), (6, 0.70), (10, 0.80), (12, 0.83)])
def test_more_calls_are_as_reliable_as_the_variance_of_performance_tests_says(
    calls: int, told: float
) -> None:
    """Person 25 %, person by task and error 63 % of the variance: the figures of the trade."""
    one = 25.0 / (25.0 + 63.0)
    assert lengthened(one, calls) == pytest.approx(told, abs=0.005)
    of_six = Told(value=lengthened(one, 6), count=20)
    assert expected_of(of_six, 6, calls).value == pytest.approx(told, abs=0.005)
    # Ten give 0.799, which is a hair too little.
    assert calls_needed(of_six, 6).value == 11.0


def test_the_error_of_a_mean_is_what_two_halves_of_a_test_differ_by() -> None:
    """By drawing: errors of 18 points over 6 calls, so 18 / sqrt(6) of their mean."""
    rows = drawn(3000, 6)
    found = error_of_mean(rows, alpha(rows))
    assert found.value == pytest.approx(18.0 / 6.0**0.5, rel=0.05)


def test_common_odds_are_those_of_a_known_table() -> None:
    found = mantel_haenszel(BERKELEY)
    assert found is not None
    assert found[0] == pytest.approx(0.9046968, abs=1e-7)
    # The same by scipy, one table at a time: hypergeometric mean and spread of each.
    away = spread = 0.0
    for a, b, c, d in BERKELEY:
        of = stats.hypergeom(int(a + b + c + d), int(a + c), int(a + b))
        away, spread = away + a - float(of.mean()), spread + float(of.var())
    square = (abs(away) - 0.5) ** 2 / spread
    assert square == pytest.approx(1.4269, abs=1e-4)  # R, from memory
    assert found[1] == pytest.approx(float(stats.chi2(1).sf(square)))


Trainees = tuple[dict[str, bool], dict[str, float], dict[str, str]]


def played(harder: float, *, each: int = 60, less: float = 0.0, seed: int = 11) -> Trainees:
    """Trainees of both languages; the call takes so many points more in Spanish.

    Those who work in Spanish may be less able, here and in their other calls.
    """
    chance = np.random.default_rng(seed)
    passed, rest, language = {}, {}, {}
    for place, code in zip(range(2 * each), cycle(("en", "es")), strict=False):
        who, is_spanish = f"t{place}", code == "es"
        able = float(chance.normal(70.0, 12.0)) - less * is_spanish
        rest[who] = able + float(chance.normal(0.0, 5.0))
        passed[who] = able + float(chance.normal(0.0, 8.0)) - harder * is_spanish >= 70.0
        language[who] = code
    return passed, rest, language


def test_a_call_that_is_harder_in_spanish_is_told_from_one_that_is_not() -> None:
    """Beyond 1.5 deltas a difference counts as large, from memory."""
    fair, by_chance = language_difference(*played(0.0))
    assert fair.value is not None
    assert abs(fair.value) < 1.5
    assert by_chance is not None
    assert by_chance > 0.05
    for harder in (8.0, 15.0):
        unfair, by_chance = language_difference(*played(harder))
        assert unfair.value is not None
        assert unfair.value < -1.5
        assert by_chance is not None
        assert by_chance < 0.01


def test_less_able_people_in_one_language_are_no_unfair_call() -> None:
    """Of what the plain odds say, seven tenths at least are taken off."""
    found, plain = [], []
    for seed in range(8):
        passed, rest, language = played(0.0, each=300, less=10.0, seed=seed)
        share = {c: fmean(passed[w] for w in passed if language[w] == c) for c in ("en", "es")}
        odds = {c: part / (1.0 - part) for c, part in share.items()}
        plain.append(-2.35 * log(odds["en"] / odds["es"]))
        told, _ = language_difference(passed, rest, language)
        assert told.value is not None
        found.append(told.value)
    assert fmean(plain) < -1.5
    assert abs(fmean(found)) < 0.3 * abs(fmean(plain))


def test_too_few_get_a_reason_and_no_figure() -> None:
    passed, rest, language = played(15.0, each=FEWEST - 1)
    told, by_chance = language_difference(passed, rest, language)
    assert (told.value, by_chance, told.count) == (None, None, FEWEST - 1)
    assert told.why
    passed, rest, language = played(0.0)
    told, _ = language_difference(dict.fromkeys(passed, True), rest, language)
    assert (told.value, told.why) == (
        None,
        "All passed or all failed where they could be compared.",
    )
    assert mean_difference({"en": [50.0] * 30, "es": [40.0] * 9}).value is None
    found = mean_difference({"en": [50.0, 70.0] * 10, "es": [40.0, 60.0] * 10})
    assert found.value == pytest.approx(10.0)
    for few in ([], [[1.0]] * 30, [[50.0, 60.0]] * 30):
        assert alpha(few).value is None
        assert alpha(few).why
        assert error_of_mean(few, alpha(few)).why == alpha(few).why
    assert expected_of(Told(value=-0.2), 3, 6).value is None


def test_the_sheets_take_first_visits_and_those_who_closed_all() -> None:
    told = [
        Response(trainee=f"t{n}", call=call, points=50.0 + n, language="es" if n % 2 else "en")
        for n in range(6)
        for call in ("x", "y")
        if (n, call) != (5, "y")
    ]
    calls, rows = complete(told)
    assert (calls, len(rows)) == (2, 5)
    means = means_by_language(told)
    assert means == {"en": [50.0, 52.0, 54.0], "es": [51.0, 53.0, 55.0]}
    mixed = [*told, Response(trainee="t0", call="z", points=1.0, language="es")]
    assert len(means_by_language(mixed)["en"]) == 2


def test_a_regret_curve_is_a_mean_and_empty_where_few_chose_so_often() -> None:
    visits = [(0.1, 0.5), (0.3, 0.7), (0.2, 0.6), (0.4, 0.4), (0.0,), (0.2, 0.3)]
    curve = regret_curve(visits)
    assert curve[0] == pytest.approx(fmean(of[0] for of in visits))
    assert curve[1] == pytest.approx(0.5)
    assert curve[2:] == (None,) * 10
    assert regret_curve(visits[: FEWEST_CHOICES - 1]) == (None,) * 12


def test_p_says_how_far_it_may_be_off() -> None:
    """Twenty that half pass: within 0.22 either way, as for a share."""
    assert wide([0.0, 100.0] * 10) == pytest.approx(0.22, abs=0.01)
    assert wide([50.0, 60.0]) is None
    (item,) = items(["x"], [Response(trainee="a", call="x", points=10.0)])
    assert (item.wide, item.language.value) == (None, None)
    assert item.language.why
