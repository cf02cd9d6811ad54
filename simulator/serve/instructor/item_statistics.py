"""How calls behave as items of a test: difficulty, agreement with the rest, errors met.

References
----------
.. [1] Corrected item-total correlation: each item against the mean of the others, so that it
   does not correlate with itself; a textbook definition, from memory.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import correlation, fmean, median

FEW = 30  # responses below which a figure is provisional
LOW = 0.15  # correlation below which an item is flagged [-]
FEWEST = 3  # pairs that a correlation needs


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
    )


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
        others = [of[trainee] for other, of in scores.items() if other != call and trainee in of]
        if others:
            own.append(points)
            rest.append(fmean(others))
    if len(own) < FEWEST or len(set(own)) == 1 or len(set(rest)) == 1:
        return None
    return correlation(own, rest)
