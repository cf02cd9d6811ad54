"""What may be believed after each reading of a visit."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import log10

import numpy as np

from simulator.calls.call_file import CallFile
from simulator.calls.events import Event, Measured, Repaired
from simulator.calls.visit import Visit, along
from simulator.diagnosis.expected import Expected, expected_at
from simulator.diagnosis.interview import ASKED, factors
from simulator.diagnosis.likelihood import Take, When, running_score, take_of, told_score
from simulator.diagnosis.mended import mended
from simulator.quantities.values import Array

LEAST = 1e-9  # of a probability that is divided by [-]


@dataclass(frozen=True, slots=True, eq=False)
class Belief:
    """How likely everything is at one moment.

    Parameters
    ----------
    seq : int
        The event after which; -1 for the work order alone.
    minute : float
        After arrival, in minutes.
    sets : mapping
        Probability of each set of causes that is thought of; adding up to one. [-]
    causes : mapping
        Probability that a cause is among what is wrong, and that nothing is. [-]
    """

    seq: int
    minute: float
    sets: Mapping[frozenset[str], float]
    causes: Mapping[str, float]

    @property
    def best(self) -> frozenset[str]:
        """The likeliest set.

        Returns
        -------
        frozenset
        """
        return max(self.sets, key=lambda one: self.sets[one])

    def odds(self, causes: Sequence[str] | frozenset[str]) -> float:
        """Weight of evidence for a set against its best rival.

        Parameters
        ----------
        causes : sequence
            Codes; no fault for nothing.

        Returns
        -------
        float
            Decimal logarithm of the odds; 1 is ten to one. [-]
        """
        wanted = frozenset(causes)
        here = self.sets.get(wanted, 0.0)
        rival = max((p for one, p in self.sets.items() if one != wanted), default=0.0)
        return float(np.log10(max(here, LEAST) / max(rival, LEAST)))

    def odds_of_one(self, cause: str) -> float:
        """Weight of evidence that a cause is there, alone or beside others.

        Parameters
        ----------
        cause : str
            Its code.

        Returns
        -------
        float
            Decimal logarithm of the odds against its absence. [-]
        """
        share = self.causes.get(cause, 0.0)
        return log10(max(share, LEAST) / max(1.0 - share, LEAST))


@dataclass(frozen=True, slots=True, eq=False)
class Standing:
    """Belief over the cells of a table, with the takes behind it.

    Parameters
    ----------
    table : Expected
        Of the call.
    cells : array
        Probability of each cell. [-]
    takes : tuple
        Numeric takes since the last repair.
    shown : tuple
        Their values as shown, in SI. [-]
    belief : Belief
        The same by sets and causes.
    """

    table: Expected
    cells: Array
    takes: tuple[Take, ...]
    shown: tuple[float, ...]
    belief: Belief


def history(visit: Visit, call: CallFile) -> tuple[Belief, ...]:
    """Belief from the work order alone, and after each reading.

    Parameters
    ----------
    visit : Visit
        With its events.
    call : CallFile
        The public part; the key is never asked.

    Returns
    -------
    tuple
        Oldest first; one entry for the work order (seq -1), one for each reading and each repair.
    """
    return tuple(standing.belief for standing in standings(visit.events, call))


def standing(visit: Visit, call: CallFile) -> Standing:
    """What is believed now, for choosing what to do next.

    Parameters
    ----------
    visit : Visit
        With its events.
    call : CallFile
        The public part.

    Returns
    -------
    Standing
    """
    return standings(visit.events, call, only_last=True)[-1]


def standings(
    events: Sequence[Event], call: CallFile, *, only_last: bool = False
) -> list[Standing]:
    """What is believed from the work order alone, after each reading and after each repair.

    Parameters
    ----------
    events : sequence
        Of a visit, oldest first.
    call : CallFile
        The public part.
    only_last : bool
        Whether those before the last reading of each part are left out.

    Returns
    -------
    list
        One for the work order, one for each reading and one for each repair.
    """
    table = expected_at(call)
    told = [call.title, call.complaint, *call.history]
    start = _told_weights(table, told)
    found = [_standing(table, start, -1, 0.0)]
    for part in _parts(events):
        scored = _of_part(part, table, call, told, start)
        found += _stood(part, table, scored, -1 if only_last else 0)
        if part.repair is None:
            break
        start = np.log(mended(table, found[-1].cells, part.repair.repair))
        found.append(_standing(table, start, part.repair.seq, part.repair.minute))
    return found


@dataclass(frozen=True, slots=True)
class _Part:
    """Readings between two repairs, each with the circumstances, and the repair after them."""

    readings: tuple[tuple[Measured, When], ...]
    repair: Repaired | None
    is_first: bool


def _parts(events: Sequence[Event]) -> list[_Part]:
    found: list[_Part] = []
    here: list[tuple[Measured, When]] = []
    for before, event in along(events):
        if isinstance(event, Measured):
            here.append((event, _when(event, before)))
        elif isinstance(event, Repaired):
            found.append(_Part(tuple(here), event, not found))
            here = []
    return [*found, _Part(tuple(here), None, not found)]


def _of_part(
    part: _Part, table: Expected, call: CallFile, told: list[str], start: Array
) -> tuple[list[Array], list[Take], list[float]]:
    """Score of the cells after each reading of one part, and its numeric takes."""
    takes: list[Take] = []
    shown: list[float] = []
    for event, when in part.readings:
        if event.reading.value is not None:
            takes.append(take_of(event.reading.measurement, when, table, call))
            shown.append(event.reading.value)
    steps = iter(running_score(takes, shown)) if takes else iter(())
    logs, found = start, []
    before = _told_weights(table, told)
    for event, _ in part.readings:
        if event.reading.measurement in ASKED:
            told.append(event.reading.words or "")
            after = _told_weights(table, told)
            logs = logs + (after - before if part.is_first else 0.0)
            before = after
        else:
            logs = logs + told_score(event, table)
        if event.reading.value is not None:
            logs = logs + next(steps)
        found.append(logs)
    return found, takes, shown


def _stood(
    part: _Part, table: Expected, found: tuple[list[Array], list[Take], list[float]], since: int
) -> list[Standing]:
    """Standings after the readings of one part from some place on."""
    logs, takes, shown = found
    numbers = np.cumsum([event.reading.value is not None for event, _ in part.readings])
    stood = []
    for place in range(len(logs))[since:]:
        event, used = part.readings[place][0], int(numbers[place])
        stood.append(
            _standing(table, logs[place], event.seq, event.minute, (takes[:used], shown[:used]))
        )
    return stood


def _when(event: Measured, before: Visit) -> When:
    return When(
        minute=event.minute,
        is_running=event.is_running,
        settled=event.settled,
        prepared=before.prepared,
        technique=event.reading.technique,
        left=before.left,
    )


def _told_weights(table: Expected, told: Sequence[str]) -> Array:
    """Logarithm of how likely each cell is by its prior and by what was told."""
    shift = factors(tuple(told))
    log = {cause: float(np.log(factor)) for cause, factor in shift.items()}
    by_hypothesis = np.array(
        [sum(log.get(cause, 0.0) for cause in one.named) for one in table.listed]
    )
    found: Array = np.log(table.weight) + by_hypothesis[table.owner]
    return found


def _standing(
    table: Expected,
    logs: Array,
    seq: int,
    minute: float,
    numeric: tuple[Sequence[Take], Sequence[float]] = ((), ()),
) -> Standing:
    raised = np.exp(logs - logs.max())
    cells = raised / raised.sum()
    by_hypothesis = np.bincount(table.owner, weights=cells, minlength=len(table.listed))
    sets: dict[frozenset[str], float] = {}
    causes: dict[str, float] = {}
    for one, part in zip(table.listed, by_hypothesis.tolist(), strict=True):
        key = frozenset(one.named)
        sets[key] = sets.get(key, 0.0) + part
        for cause in one.named:
            causes[cause] = causes.get(cause, 0.0) + part
    belief = Belief(seq, minute, sets, causes)
    return Standing(table, cells, tuple(numeric[0]), tuple(numeric[1]), belief)
