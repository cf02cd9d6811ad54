"""Of all that a class measured before a repair, what moved the odds of the truth most."""

from collections.abc import Sequence
from dataclasses import dataclass

from simulator.calls.site import Site
from simulator.calls.visit import Visit
from simulator.scoring.truth import shares
from simulator.scoring.turning import gains, most


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
    found: dict[str, list[float]] = {}
    for visit, site in worked:
        for one in gains(visit, site, frozenset(shares(site.key.opened()))):
            found.setdefault(one.event.reading.measurement, []).append(one.gain)
    means = {name: sum(all_of) / len(all_of) for name, all_of in found.items()}
    best = most(means)
    return None if best is None else Told(best, means[best])
