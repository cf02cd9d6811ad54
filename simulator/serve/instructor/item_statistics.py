"""How calls behave as items of a test: difficulty, agreement with the rest, errors met.

References
----------
.. [1] Corrected item-total correlation: each item against the mean of the others, so that it
   does not correlate with itself; a textbook definition, from memory.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import sqrt
from statistics import correlation, fmean, median, stdev

from simulator.scoring.grounds import COUNTED
from simulator.serve.instructor.form_statistics import SURE, Told, language_difference

FEW = 30  # responses below which a figure is provisional
LOW = 0.15  # correlation below which an item is flagged [-]
FEWEST = 3  # pairs that a correlation needs
FEWEST_CHOICES = 5  # visits behind a point of a regret curve
PASS = 70.0  # points, without anything unsafe
NOBODY = Told(why="Nobody has closed it.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Response:
    """One trainee's first visit of one call.

    Parameters
    ----------
    trainee, call : str
        Whose and which.
    points : float or None
        By the rubric, out of 100; None while it is open. [-]
    minutes : float
        On site, in minutes.
    has_harm, is_capped, is_verified : bool
        Done to the customer's disadvantage; unsafe; the repair proven by a re-test.
    hint_depth : int
        The deepest hint taken, 0 without one. [-]
    wrong : tuple of str
        Causes that were stated and are not true.
    language : str
        Code of the language the page spoke; empty where it was not noted.
    regrets : tuple of float
        What each choice gave away of the best. [-]
    """

    trainee: str
    call: str
    points: float | None
    minutes: float = 0.0
    has_harm: bool = False
    is_capped: bool = False
    is_verified: bool = False
    hint_depth: int = 0
    wrong: tuple[str, ...] = ()
    language: str = ""
    regrets: tuple[float, ...] = ()

    @property
    def is_passed(self) -> bool:
        """Whether it would count as passed, safe and with points enough."""
        return self.points is not None and self.points >= PASS and not self.is_capped


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """A call over all that closed it.

    Parameters
    ----------
    call : str
        Its id.
    closed, left_open : int
        Responses. [-]
    p : float or None
        Mean share of the points. [-]
    r : float or None
        Correlation with the mean of the same trainees' other calls. [-]
    minutes : float or None
        Median on site, in minutes.
    harm, capped, verified : float or None
        Shares of the closed. [-]
    hint_depth : float or None
        Median of the deepest hints taken. [-]
    distractors : tuple
        Causes stated wrongly, and how often, most first.
    wide : float or None
        How far p may be off, 95 %. [-]
    regrets : tuple
        Mean of what each choice in turn gave away; None where too few chose as often. [-]
    language : Told
        Whether it is harder in Spanish, in deltas.
    by_chance : float or None
        Probability of such a difference where there is none. [-]
    """

    call: str
    closed: int
    left_open: int
    p: float | None = None
    r: float | None = None
    minutes: float | None = None
    harm: float | None = None
    capped: float | None = None
    verified: float | None = None
    hint_depth: float | None = None
    distractors: tuple[tuple[str, int], ...] = ()
    wide: float | None = None
    regrets: tuple[float | None, ...] = (None,) * COUNTED
    language: Told = NOBODY
    by_chance: float | None = None

    @property
    def is_provisional(self) -> bool:
        """Whether too few answered for the figures to be relied on."""
        return self.closed < FEW

    @property
    def is_flagged(self) -> bool:
        """Whether those who do well elsewhere do not do well here."""
        return self.r is not None and self.r < LOW


def items(calls: Sequence[str], responses: Sequence[Response]) -> list[Item]:
    """Figures of each call.

    Parameters
    ----------
    calls : sequence of str
        In the order wanted.
    responses : sequence of Response
        One a trainee and call.

    Returns
    -------
    list
    """
    scores: dict[str, dict[str, float]] = {call: {} for call in calls}
    for one in responses:
        if one.points is not None:
            scores[one.call][one.trainee] = one.points
    return [_item(call, [one for one in responses if one.call == call], scores) for call in calls]


def _item(
    call: str, responses: Sequence[Response], scores: Mapping[str, Mapping[str, float]]
) -> Item:
    closed = [one for one in responses if one.points is not None]
    left_open = len(responses) - len(closed)
    if not closed:
        return Item(call=call, closed=0, left_open=left_open)
    chosen = Counter(cause for one in closed for cause in one.wrong)
    others = {one.trainee: _rest(one.trainee, call, scores) for one in closed}
    difference, by_chance = language_difference(
        {one.trainee: one.is_passed for one in closed},
        {trainee: rest for trainee, rest in others.items() if rest is not None},
        {one.trainee: one.language for one in closed},
    )
    return Item(
        call=call,
        closed=len(closed),
        left_open=left_open,
        p=fmean(one.points or 0.0 for one in closed) / 100.0,
        r=item_rest(call, scores),
        minutes=median(one.minutes for one in closed),
        harm=fmean(one.has_harm for one in closed),
        capped=fmean(one.is_capped for one in closed),
        verified=fmean(one.is_verified for one in closed),
        hint_depth=median(one.hint_depth for one in closed),
        distractors=tuple(sorted(chosen.items(), key=lambda pair: (-pair[1], pair[0]))),
        wide=wide([one.points or 0.0 for one in closed]),
        regrets=regret_curve([one.regrets for one in closed]),
        language=difference,
        by_chance=by_chance,
    )


def wide(points: Sequence[float]) -> float | None:
    """How far the mean share of the points may be off.

    Parameters
    ----------
    points : sequence
        Of 100, one a trainee. [-]

    Returns
    -------
    float or None
        With 95 %; None where too few closed it. [-]
    """
    if len(points) < FEWEST:
        return None
    return SURE * stdev(points) / sqrt(len(points)) / 100.0


def regret_curve(regrets: Sequence[Sequence[float]]) -> tuple[float | None, ...]:
    """How much of the best each choice in turn gave away.

    Parameters
    ----------
    regrets : sequence
        Of each visit, in the order of its choices. [-]

    Returns
    -------
    tuple
        A mean each; None where too few visits chose as often. [-]
    """
    at = ([of[place] for of in regrets if len(of) > place] for place in range(COUNTED))
    return tuple(fmean(one) if len(one) >= FEWEST_CHOICES else None for one in at)


def _rest(trainee: str, call: str, scores: Mapping[str, Mapping[str, float]]) -> float | None:
    """Mean points of a trainee's other calls."""
    others = [of[trainee] for other, of in scores.items() if other != call and trainee in of]
    return fmean(others) if others else None


def item_rest(call: str, scores: Mapping[str, Mapping[str, float]]) -> float | None:
    """Corrected item-total correlation.

    Parameters
    ----------
    call : str
        Which item.
    scores : mapping
        Points by call and trainee. [-]

    Returns
    -------
    float or None
        None where too few did another call too, or all did alike. [-]
    """
    own, rest = [], []
    for trainee, points in scores[call].items():
        mean = _rest(trainee, call, scores)
        if mean is not None:
            own.append(points)
            rest.append(mean)
    if len(own) < FEWEST or len(set(own)) == 1 or len(set(rest)) == 1:
        return None
    return correlation(own, rest)
