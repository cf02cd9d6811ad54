"""How far the points of a class can be trusted: reliability, and whether language matters.

Where too few have closed a call nothing is told but why.

References
----------
.. [1] Cronbach, Psychometrika 16 (1951): alpha, from memory.
.. [2] Bonett, Journal of Educational and Behavioral Statistics 27 (2002): an interval for it,
   by the logarithm of what is not reliable, from memory.
.. [3] Holland and Thayer, in Test Validity (1988): the Mantel-Haenszel difference of an item on
   the scale of deltas, from memory.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil, erfc, exp, log, sqrt
from statistics import fmean, stdev, variance

FEWEST = 10  # trainees, or trainees of one language, below which nothing is told [-]
SURE = 1.96  # standard deviations of 95 %
WANTED = 0.80  # reliability that a decision on somebody asks for [-]
DELTAS = -2.35  # a logarithm of odds on the scale of deltas [-]
STRATA = (3, 10)  # of trainees alike in their other calls, at least and at most [-]
ALIKE = 12  # trainees of a stratum, about [-]

Table = tuple[float, float, float, float]  # passed and failed of one group, then of the other


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One figure, or why there is none.

    Parameters
    ----------
    value, low, high : float or None
        The figure and its bounds, 95 %. [-]
    count : int
        Trainees behind it. [-]
    why : str
        Empty where there is a figure.
    """

    value: float | None = None
    low: float | None = None
    high: float | None = None
    count: int = 0
    why: str = ""


def alpha(rows: Sequence[Sequence[float]]) -> Told:
    """Reliability of the mean over calls.

    Parameters
    ----------
    rows : sequence
        Points of each trainee who closed every call, shape (trainees, calls). [-]

    Returns
    -------
    Told
        [-]
    """
    count, calls = len(rows), len(rows[0]) if rows else 0
    if rows and calls < 2:
        return Told(count=count, why="It takes two calls that somebody closed.")
    if count < FEWEST:
        return Told(count=count, why=f"It takes {FEWEST} who closed every call.")
    whole = variance([sum(row) for row in rows])
    if whole == 0.0:
        return Told(count=count, why="All came out alike.")
    each = sum(variance(column) for column in zip(*rows, strict=True))
    value = calls / (calls - 1.0) * (1.0 - each / whole)
    spread = exp(SURE * sqrt(2.0 * calls / ((calls - 1.0) * (count - 2.0))))
    left = 1.0 - value
    return Told(value=value, low=1.0 - left * spread, high=1.0 - left / spread, count=count)


def error_of_mean(rows: Sequence[Sequence[float]], reliability: Told) -> Told:
    """Standard error of measurement of a trainee's mean over calls.

    Parameters
    ----------
    rows : sequence
        As for ``alpha``.
    reliability : Told
        As it gave it.

    Returns
    -------
    Told
        In points.
    """
    if reliability.value is None:
        return Told(count=reliability.count, why=reliability.why)
    spread = stdev(fmean(row) for row in rows)
    return Told(value=spread * sqrt(1.0 - min(reliability.value, 1.0)), count=reliability.count)


def lengthened(reliability: float, times: float) -> float:
    """Reliability of a test so many times as long.

    Parameters
    ----------
    reliability : float
        As it is. [-]
    times : float
        As many calls. [-]

    Returns
    -------
    float
        By Spearman and Brown. [-]
    """
    return times * reliability / (1.0 + (times - 1.0) * reliability)


def expected_of(reliability: Told, calls: int, wanted: int) -> Told:
    """Reliability expected of another number of such calls.

    Parameters
    ----------
    reliability : Told
        Over the calls there are.
    calls, wanted : int
        How many there are, and would be. [-]

    Returns
    -------
    Told
        [-]
    """
    if reliability.value is None or reliability.value <= 0.0:
        why = reliability.why or "No reliability was found to build on."
        return Told(count=reliability.count, why=why)
    value = lengthened(reliability.value, wanted / calls)
    return Told(value=value, count=reliability.count)


def calls_needed(reliability: Told, calls: int) -> Told:
    """Such calls that a decision on somebody would take.

    Parameters
    ----------
    reliability : Told
        Over the calls there are.
    calls : int
        How many they are. [-]

    Returns
    -------
    Told
        [-]
    """
    found = expected_of(reliability, calls, calls)
    if found.value is None:
        return found
    if found.value >= 1.0:
        return Told(value=1.0, count=found.count)
    odds = WANTED * (1.0 - found.value) / (found.value * (1.0 - WANTED))
    return Told(value=float(ceil(calls * odds - 1e-9)), count=found.count)


def mantel_haenszel(tables: Sequence[Table]) -> tuple[float, float] | None:
    """Common odds over strata of people who are alike otherwise.

    Parameters
    ----------
    tables : sequence
        Passed and failed of the first group, then of the second, a stratum each. [-]

    Returns
    -------
    tuple or None
        Odds of the first group over those of the second, and the probability of such a
        difference by chance; None where a group or an outcome is missing. [-]
    """
    told = [t for t in tables if sum(t) > 1.0]
    spread = sum(
        (a + b) * (c + d) * (a + c) * (b + d) / ((a + b + c + d) ** 2 * (a + b + c + d - 1.0))
        for a, b, c, d in told
    )
    if spread <= 0.0:
        return None
    over, under = _crossed(told)
    if over <= 0.0 or under <= 0.0:
        # Without any overlap the odds have no end: half a person more in each cell.
        over, under = _crossed([(a + 0.5, b + 0.5, c + 0.5, d + 0.5) for a, b, c, d in told])
    away = abs(sum(a - (a + b) * (a + c) / (a + b + c + d) for a, b, c, d in told))
    corrected = max(away - 0.5, 0.0) ** 2 / spread
    return over / under, erfc(sqrt(corrected / 2.0))


def _crossed(tables: Sequence[Table]) -> tuple[float, float]:
    over = sum(a * d / (a + b + c + d) for a, b, c, d in tables)
    under = sum(b * c / (a + b + c + d) for a, b, c, d in tables)
    return over, under


def language_difference(
    passed: Mapping[str, bool], rest: Mapping[str, float], language: Mapping[str, str]
) -> tuple[Told, float | None]:
    """Whether a call is harder in Spanish for people who are alike in their other calls.

    Where the two groups differ much in those, some of that is left in it: other calls tell how
    able somebody is only so far.

    Parameters
    ----------
    passed : mapping
        Whether each trainee passed it.
    rest : mapping
        Mean points of the same trainees' other calls. [-]
    language : mapping
        Code of each trainee's language.

    Returns
    -------
    tuple
        Deltas, below zero where it is harder in Spanish than it should be, and the probability
        of such a difference by chance. [-]
    """
    known = [who for who in passed if who in rest and language.get(who) in ("en", "es")]
    groups = [[who for who in known if language[who] == code] for code in ("en", "es")]
    few = min(len(group) for group in groups)
    if few < FEWEST:
        why = f"It takes {FEWEST} in each language who closed another call too."
        return Told(count=few, why=why), None
    ranked = sorted(known, key=lambda who: (rest[who], who))
    strata = min(max(len(ranked) // ALIKE, STRATA[0]), STRATA[1])
    stratum = {who: strata * place // len(ranked) for place, who in enumerate(ranked)}
    tables = [_table(passed, groups, stratum, at) for at in range(strata)]
    found = mantel_haenszel(tables)
    if found is None:
        return Told(count=few, why="All passed or all failed where they could be compared."), None
    odds, by_chance = found
    return Told(value=DELTAS * log(odds), count=few), by_chance


def _table(
    passed: Mapping[str, bool], groups: Sequence[Sequence[str]], stratum: Mapping[str, int], at: int
) -> Table:
    counts = [
        float(sum(passed[who] is did for who in group if stratum[who] == at))
        for group in groups
        for did in (True, False)
    ]
    return counts[0], counts[1], counts[2], counts[3]


def mean_difference(by_language: Mapping[str, Sequence[float]]) -> Told:
    """Mean points in English less those in Spanish.

    Parameters
    ----------
    by_language : mapping
        Mean points of each trainee, by the code of the language. [-]

    Returns
    -------
    Told
        In points.
    """
    groups = [list(by_language.get(code, ())) for code in ("en", "es")]
    few = min(len(group) for group in groups)
    if few < FEWEST:
        return Told(count=few, why=f"It takes {FEWEST} in each language.")
    value = fmean(groups[0]) - fmean(groups[1])
    wide = SURE * sqrt(sum(variance(group) / len(group) for group in groups))
    return Told(value=value, low=value - wide, high=value + wide, count=few)
