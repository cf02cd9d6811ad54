"""Points for knowing how much one knows: the odds given between readings, by the Brier rule.

References
----------
.. [1] Brier, Monthly Weather Review 78 (1950), from memory: the sum over all causes of the squared
   distance between what was believed and what was true. Nobody gains by saying other than what
   they believe.
"""

from collections.abc import Mapping

from simulator.calls import probes
from simulator.calls.events import Probed
from simulator.calls.visit import Visit
from simulator.diagnosis.causes import codes, name_of
from simulator.scoring.hints import Charge

STAKE = 2.0  # of efficiency, won or lost where all that was asked is answered


def skill(given: Mapping[str, float], true: Mapping[str, float], count: int) -> float:
    """How much better than knowing nothing.

    Parameters
    ----------
    given : mapping
        What was believed of each cause named; the rest is spread over the others. [-]
    true : mapping
        Share of each true cause, adding up to one. [-]
    count : int
        Of all causes that can be named.

    Returns
    -------
    float
        1 for certain and right, 0 as for all causes alike, down to -1. [-]
    """
    rest = max(1.0 - sum(given.values()), 0.0) / max(count - len(given), 1)

    def distance(of: Mapping[str, float], else_share: float) -> float:
        named = set(of) | set(true)
        far = sum((of.get(c, else_share) - true.get(c, 0.0)) ** 2 for c in named)
        return far + (count - len(named)) * else_share**2

    return max(1.0 - distance(given, rest) / distance({}, 1.0 / count), -1.0)


def answered(visit: Visit) -> list[Probed]:
    """Answers that were given; those put aside cost nothing.

    Parameters
    ----------
    visit : Visit
        As it stands.

    Returns
    -------
    list
        Oldest first.
    """
    return [event for event in visit.events if isinstance(event, Probed) and event.causes]


def calibration(visit: Visit, true: Mapping[str, float]) -> list[Charge]:
    """What each answer wins or loses of efficiency.

    Its share of the stake is that of one question among all that were asked: who answers only when
    sure wins no more by it.

    Parameters
    ----------
    visit : Visit
        Closed.
    true : mapping
        What there was to find, by share. [-]

    Returns
    -------
    list
        Points won are below zero: they are no charge.
    """
    given, all_of_them = answered(visit), len(codes())
    asked = max(probes.asked(visit), sum(isinstance(e, Probed) for e in visit.events))
    alike = dict.fromkeys(true, 1.0 / len(true))
    found = []
    for event in given:
        believed = dict(zip(event.causes, event.shares, strict=True))
        won = STAKE * skill(believed, alike, all_of_them) / asked
        said = ", ".join(f"{name_of(c)} {100.0 * share:.0f} %" for c, share in believed.items())
        text = (
            f"Your odds at minute {event.minute:.0f} ({said}) were worth {won:+.1f} points: they "
            "are measured by how near they came to what was true."
        )
        found.append(Charge(text, event.seq, -won))
    return found
