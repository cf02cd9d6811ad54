"""Whether a call was solved in the time allowed, and what it is hardest to tell from."""

from dataclasses import dataclass

from simulator.calls import call_file
from simulator.calls.visit import Visit, fold
from simulator.diagnosis.belief import standing
from simulator.diagnosis.causes import name_of
from simulator.scoring.truth import shares
from simulator.serve.visits.closed_visits import site_for_paper


@dataclass(frozen=True, slots=True)
class Solved:
    """What became of one visit.

    Parameters
    ----------
    is_right : bool
        Whether exactly what was true was found.
    minutes : float
        Of measuring, walking and waiting, without repairs, in minutes.
    allowed : float
        Of the same, in minutes.
    look_alike : str
        What the readings left likeliest beside what was true.
    """

    is_right: bool
    minutes: float
    allowed: float
    look_alike: str

    @property
    def is_solved(self) -> bool:
        """Right, and in time.

        Returns
        -------
        bool
        """
        return self.is_right and self.minutes <= self.allowed


def solved(call: str, visit: Visit) -> Solved:
    """Judge one visit by key and clock.

    Parameters
    ----------
    call : str
        Which call.
    visit : Visit
        Closed.

    Returns
    -------
    Solved
    """
    key, finding = site_for_paper(call).key.opened(), visit.finding
    true = frozenset(shares(key))
    stated = finding.seq if finding else visit.next_seq
    readings = fold(event for event in visit.events if event.seq < stated)
    left = standing(readings, call_file.load(call)).belief.sets if readings.readings else {}
    rivals = {one: share for one, share in left.items() if one != true}
    rival = max(rivals, key=lambda one: rivals[one], default=frozenset[str]())
    return Solved(
        is_right=finding is not None and frozenset(finding.causes) == true,
        minutes=visit.minute - sum(event.minutes for event in visit.repairs),
        allowed=key.usual_minutes,
        look_alike="; ".join(name_of(cause) for cause in sorted(rival)),
    )
