"""A call played by the four simulated trainees: what they score, and when the reference knows."""

from collections.abc import Mapping
from dataclasses import dataclass
from zlib import crc32

import numpy as np

from simulator.calls.visit import Visit
from simulator.diagnosis.belief import Belief, history
from simulator.diagnosis.interview import ASKED
from simulator.diagnosis.playing import played
from simulator.diagnosis.trainees import TRAINEES
from simulator.scoring.grounds import grounds
from simulator.scoring.scorecard import score
from simulator.scoring.truth import shares
from simulator.variants.subject import Subject

PLAYS = 3  # of each trainee; a single one hangs on one set of tools [-]
FIRST_SEED = 1
TEN_TO_ONE = 1.0  # decimal logarithm of odds [-]
REFERENCE = "reference"


@dataclass(frozen=True, slots=True)
class Played:
    """What plays of one trainee came to.

    Parameters
    ----------
    score : float
        Mean of the rubric's points. [-]
    finds : bool
        Whether most of them named what was true, and nothing else.
    minutes : float
        Mean site time until the odds for the truth stood at ten to one, in minutes.
    entropy : float
        Doubt about the set of causes once all questions were answered, in bits. [-]
    """

    score: float
    finds: bool
    minutes: float
    entropy: float


def plays_of(subject: Subject, who: str, *, named: str, plays: int = PLAYS) -> Played:
    """Play a call some times over with one trainee.

    Parameters
    ----------
    subject : Subject
        The call.
    who : str
        Which trainee.
    named : str
        Whose chance is used: versions of a call are played with the dice of the call.
    plays : int
        How often. [-]

    Returns
    -------
    Played
        Minutes and entropy of the reference only; others reason otherwise.
    """
    truth = tuple(shares(subject.key))
    points, found, minutes, doubt = [], [], [], 0.0
    for seed in range(FIRST_SEED, FIRST_SEED + plays):
        chance = np.random.default_rng((seed, crc32(f"{who} {named}".encode())))
        site = subject.site(seed)
        visit = played(site, TRAINEES[who], chance)
        points.append(score(visit.events, subject.key, grounds(visit, site)).total)
        found.append(visit.finding is not None and set(visit.finding.causes) == set(truth))
        if who == REFERENCE:
            beliefs = history(visit, subject.call)
            minutes.append(minutes_to(truth, beliefs, visit))
            doubt = entropy_when_told(beliefs, visit)
    return Played(
        score=float(np.mean(points)),
        finds=2 * sum(found) > plays,
        minutes=float(np.mean(minutes)) if minutes else 0.0,
        entropy=doubt,
    )


def minutes_to(truth: tuple[str, ...], beliefs: tuple[Belief, ...], visit: Visit) -> float:
    """Site time until the truth stands ten to one against its best rival.

    Parameters
    ----------
    truth : tuple
        The set of causes.
    beliefs : tuple
        After each reading.
    visit : Visit
        Closed.

    Returns
    -------
    float
        In minutes; the whole visit where it never comes so far.
    """
    first = next((event.seq for event in visit.repairs), visit.next_seq)
    for belief in beliefs:
        if belief.seq < first and belief.odds(truth) >= TEN_TO_ONE:
            return belief.minute
    return visit.minute


def entropy_when_told(beliefs: tuple[Belief, ...], visit: Visit) -> float:
    """Doubt about the set of causes from the work order and the answers alone.

    Parameters
    ----------
    beliefs : tuple
        After each reading, the questions first.
    visit : Visit
        Of the reference, who asks before measuring.

    Returns
    -------
    float
        In bits. [-]
    """
    asked = {e.seq for e in visit.readings if e.reading.measurement in ASKED}
    told = [belief for belief in beliefs if belief.seq in asked or belief.seq < 0]
    return entropy(told[-1].sets)


def entropy(sets: Mapping[frozenset[str], float]) -> float:
    """Of a distribution.

    Parameters
    ----------
    sets : mapping
        Probabilities that add up to one. [-]

    Returns
    -------
    float
        In bits. [-]

    Examples
    --------
    >>> entropy({frozenset({"one"}): 0.5, frozenset({"other"}): 0.25, frozenset(): 0.25})
    1.5
    """
    return float(-sum(p * np.log2(p) for p in sets.values() if p > 0.0))
