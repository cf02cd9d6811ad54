"""Whether two versions of a call are equally hard, and if not, why."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from simulator.diagnosis.trainees import TRAINEES
from simulator.variants.difficulty import NAMES, Difficulty, difficulty
from simulator.variants.plays import PLAYS, plays_of
from simulator.variants.subject import Subject

WITHIN = 0.10  # of every part that is no count, from the issue on variants [-]
POINTS = 5.0  # of every trainee's score, from the same [-]
COUNTED = ("faults", "traps", "steps")  # these must be the same
SAID = {
    "minutes": "minutes to 10:1",
    "entropy": "entropy, bits",
    "separation": "d' to look-alike",
    "faults": "faults",
    "traps": "traps",
    "steps": "arithmetic steps",
    "words": "words to read",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """One version, measured.

    Parameters
    ----------
    difficulty : Difficulty
        Its seven parts.
    scores : mapping
        Mean points by simulated trainee. [-]
    """

    difficulty: Difficulty
    scores: Mapping[str, float]


def measured(
    subject: Subject, *, named: str, plays: int = PLAYS, who: Sequence[str] = tuple(TRAINEES)
) -> Measured:
    """Play and measure a call.

    Parameters
    ----------
    subject : Subject
        The call.
    named : str
        Of the parent, whose dice are used.
    plays : int
        Of each trainee. [-]
    who : sequence
        Which trainees.

    Returns
    -------
    Measured
    """
    played = {one: plays_of(subject, one, named=named, plays=plays) for one in who}
    return Measured(
        difficulty=difficulty(subject, played),
        scores={one: play.score for one, play in played.items()},
    )


def differences(parent: Measured, other: Measured) -> list[str]:
    """What keeps two versions from being equally hard.

    Parameters
    ----------
    parent, other : Measured
        Both by the same number of plays.

    Returns
    -------
    list
        A sentence each; empty where they are.
    """
    found = []
    for name in NAMES:
        mine, theirs = (getattr(one.difficulty, name) for one in (parent, other))
        if not is_near(name, mine, theirs):
            found.append(f"{SAID[name]}: {shown(theirs)} beside {shown(mine)}")
    for who, points in parent.scores.items():
        if abs(other.scores[who] - points) > POINTS:
            found.append(f"{who} scores {other.scores[who]:.1f} beside {points:.1f}")
    return found


def is_near(name: str, mine: float, theirs: float) -> bool:
    """Whether one part of two difficulties agrees.

    Parameters
    ----------
    name : str
        Of the part.
    mine, theirs : float
        The parent's and the version's. [-]

    Returns
    -------
    bool
        Counts must be equal, everything else within a tenth of the parent's.

    Examples
    --------
    >>> is_near("minutes", 40.0, 43.9), is_near("minutes", 40.0, 44.1), is_near("faults", 1, 2)
    (True, False, False)
    """
    if name in COUNTED:
        return mine == theirs
    return abs(theirs - mine) <= WITHIN * abs(mine)


def shown(value: float) -> str:
    """One part as a table prints it.

    Parameters
    ----------
    value : float
        [-]

    Returns
    -------
    str
    """
    return str(value) if isinstance(value, int) else f"{value:.2f}"
