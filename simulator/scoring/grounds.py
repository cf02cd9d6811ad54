"""What a visit's own readings gave grounds for, whatever was true; the weather, for re-tests."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache

from simulator.calls.call_file import CallFile
from simulator.calls.events import Event, Measured, Opened, Repaired
from simulator.calls.site import Site
from simulator.calls.visit import Visit, advanced, along, fold
from simulator.diagnosis.belief import Belief, Standing, standings
from simulator.diagnosis.likelihood import outdoor_at
from simulator.diagnosis.next_reading import Worth, next_readings
from simulator.instruments.measurements import MEASUREMENTS
from simulator.plant import steady
from simulator.scoring.carried import ENOUGH_FOR_COSTLY

COUNTED = 12  # readings whose choice is judged, the first ones [-]
# Outdoor air may have moved no further between two readings of a pair; the project's own bar. [K]
ALIKE = 3.0
LITTLE = 0.004  # bits a minute below which nothing more is to be learnt [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One reading against what else could have been taken.

    Parameters
    ----------
    event : Measured
        The reading.
    regret : float
        What of the best worth a minute was given away: 0 none, 1 all. [-]
    best : str
        The measurement that was worth most a minute.
    """

    event: Measured
    regret: float
    best: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Grounds:
    """What can be told of a visit without its key, but for ``untouched``.

    Parameters
    ----------
    outdoor : mapping, optional
        Outdoor temperature at each reading, by its event. [K]
    untouched : mapping
        What the unit would show at each reading had nobody repaired anything, by its event, in
        SI; only where the weather moved too far for readings to be set side by side. [-]
    beliefs : tuple
        Belief from the work order, after each reading and each repair, oldest first;
        empty until it is worked out.
    choices : tuple
        The first readings that were chosen, questions and repeats of words apart.
    """

    outdoor: Mapping[int, float] | None
    beliefs: tuple[Belief, ...] = ()
    choices: tuple[Choice, ...] = ()
    untouched: Mapping[int, float] = field(default_factory=dict)

    @property
    def is_worked_out(self) -> bool:
        """Whether odds are known.

        Returns
        -------
        bool
        """
        return bool(self.beliefs)

    def before(self, seq: int) -> Belief:
        """What could be believed before an event.

        Parameters
        ----------
        seq : int
            Its number.

        Returns
        -------
        Belief
        """
        return [belief for belief in self.beliefs if belief.seq < seq][-1]


def weather(visit: Visit, site: Site) -> Grounds:
    """What needs no odds, at once.

    Parameters
    ----------
    visit : Visit
        Closed.
    site : Site
        Its key is asked where the weather moved far, for what no repair did to a reading.

    Returns
    -------
    Grounds
        Not worked out.
    """
    outdoor = {e.seq: outdoor_at(site.call, e.minute) for e in visit.readings}
    return Grounds(outdoor=outdoor, untouched=_untouched(visit, site, outdoor))


def _untouched(visit: Visit, site: Site, outdoor: Mapping[int, float]) -> dict[int, float]:
    """Settled numbers of the unit as found, in the weather of each reading's own minute."""
    met = outdoor.values() or (0.0,)
    if not visit.repairs or max(met) - min(met) <= ALIKE:
        return {}
    found, points = {}, {}
    for event in visit.readings:
        truth = MEASUREMENTS[event.reading.measurement].truth
        if truth is None or event.reading.value is None or not event.is_running:
            continue
        if event.minute not in points:
            held = site.conditions(event.minute)
            points[event.minute] = steady.solve(site.installation(), held)
        found[event.seq] = float(truth(points[event.minute]))
    return found


def grounds(visit: Visit, site: Site) -> Grounds:
    """All of it; some seconds where the table of the call is not there yet.

    Parameters
    ----------
    visit : Visit
        Closed.
    site : Site
        Its key is asked for the weather of re-tests alone.

    Returns
    -------
    Grounds
        The same for the same events and call.
    """
    return _of(visit.events, site)


@lru_cache(maxsize=8)
def _of(events: tuple[Event, ...], site: Site) -> Grounds:
    visit, stood = fold(events), standings(events, site.call)
    return replace(
        weather(visit, site),
        beliefs=tuple(standing.belief for standing in stood),
        choices=_choices(visit, stood, site.call),
    )


def _choices(visit: Visit, stood: list[Standing], call: CallFile) -> tuple[Choice, ...]:
    after = {standing.belief.seq: standing for standing in stood}
    now, last = stood[0], Visit()
    found: list[Choice] = []
    stated = visit.finding.seq if visit.finding else visit.next_seq
    for here, event in along(visit.events):
        if isinstance(event, Repaired) or event.seq > stated or len(found) >= COUNTED:
            break
        if isinstance(event, Opened):
            last = advanced(here, event)
        if not isinstance(event, Measured):
            continue
        # Once something stands out beyond 30 to 1 there is nothing left to choose by.
        is_open = now.belief.odds(now.belief.best) < ENOUGH_FOR_COSTLY
        if is_open and MEASUREMENTS[event.reading.measurement].way != "ask":
            found += _choice(event, now, last, here, call)
        now, last = after[event.seq], advanced(here, event)
    return tuple(found)


def _choice(
    event: Measured, now: Standing, last: Visit, here: Visit, call: CallFile
) -> list[Choice]:
    """Judged from where the last reading was taken and from this one's place, the milder counts."""
    judged: list[tuple[float, Worth]] = []
    for visit in (last, here):
        # Preparing and walking is dear for the first reading at a place, and free for the next.
        worths = next_readings(now, visit, call)
        if not worths or worths[0].rate < LITTLE:
            return []
        own = next(
            (
                worth.rate
                for worth in worths
                if worth.measurement == event.reading.measurement
                and worth.is_running == event.is_running
            ),
            0.0,
        )
        judged.append((1.0 - own / worths[0].rate, worths[0]))
        if own == worths[0].rate:
            break
    regret, best = min(judged, key=lambda one: one[0])
    return [Choice(event=event, regret=regret, best=best.measurement)]
