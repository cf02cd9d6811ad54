"""Of all that a class measured before a repair, what moved the odds of the truth most."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from simulator.calls.site import Site
from simulator.calls.visit import Visit
from simulator.instruments.measurements import MEASUREMENTS
from simulator.scoring.odds import MOVED, believed, gained
from simulator.scoring.truth import shares


@dataclass(frozen=True, slots=True)
class Told:
    """One measurement and what it told those who took it.

    Parameters
    ----------
    measurement : str
        Which.
    gain : float
        Decimal logarithm of the ratio by which it raised what was true against its best
        rival, meaned over their first takes. [-]
    """

    measurement: str
    gain: float


def told_most(worked: Sequence[tuple[Visit, Site]]) -> Told | None:
    """The measurement that told most, by the odds of each visit's own readings.

    Parameters
    ----------
    worked : sequence
        Closed visits, all of one call, each with the site of its own version.

    Returns
    -------
    Told or None
        None where no odds are worked out, or nothing moved them.
    """
    gains: dict[str, list[float]] = {}
    for visit, site in worked:
        true = frozenset(shares(site.key.opened()))
        for name, gain in _gains(visit, site, true).items():
            gains.setdefault(name, []).append(gain)
    found = [Told(name, sum(all_of) / len(all_of)) for name, all_of in gains.items()]
    # Of two that tell alike the quicker one; names last, so that chance decides nothing.
    found.sort(key=lambda one: (-round(one.gain, 2), _minutes(one), one.measurement))
    return found[0] if found and found[0].gain >= MOVED else None


def _minutes(one: Told) -> float:
    return MEASUREMENTS[one.measurement].minutes


def _gains(visit: Visit, site: Site, true: frozenset[str]) -> dict[str, float]:
    """What the first take of each measurement did to the odds."""
    beliefs = believed(visit, site)
    if true not in beliefs[0].sets:
        return {}
    taken = {event.seq: event.reading.measurement for event in visit.readings}
    found: dict[str, float] = {}
    for before, after in pairwise(beliefs):
        if after.seq in taken:
            gain = gained(before, after, true)
            found.setdefault(taken[after.seq], gain)
    return found
