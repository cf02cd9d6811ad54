"""Looking for versions that are as hard as a call."""

import time
from collections.abc import Iterator
from dataclasses import dataclass
from zlib import crc32

import numpy as np

from simulator.calls import call_file
from simulator.calls.versions import Recipe
from simulator.diagnosis.trainees import TRAINEES
from simulator.variants.bounds import bounds_of
from simulator.variants.candidates import Parent, Unequal, candidate, made
from simulator.variants.difficulty import difficulty
from simulator.variants.equality import POINTS, Measured, differences, is_near
from simulator.variants.plays import REFERENCE, Played, plays_of
from simulator.variants.separation import separation
from simulator.variants.subject import subject
from simulator.variants.wording import bills_said

# The likeliest to differ first; the others need not play a candidate that is out.
ORDER = ("reference", "gauges_first", "checklist", "random")


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """One candidate and what became of it.

    Parameters
    ----------
    number : int
        Of the draw. [-]
    recipe : Recipe or None
        None where none was found that could be played.
    measured : Measured or None
        None where it was not played to the end.
    reasons : tuple
        Why it is not as hard; empty where it is.
    """

    number: int
    recipe: Recipe | None
    measured: Measured | None
    reasons: tuple[str, ...]


def parent_of(call: str) -> Parent:
    """A call as its versions are drawn from it.

    Parameters
    ----------
    call : str
        Its name.

    Returns
    -------
    Parent

    Raises
    ------
    CallFileError
        If it cannot be used.
    """
    tables, whole = call_file.document(call), subject(call)
    return Parent(
        name=call,
        tables=tables,
        subject=whole,
        bounds=bounds_of(call, tables, bills_said(whole).ratio),
        separation=separation(whole),
    )


def tried(
    parent: Parent, own: Measured, *, start: int, plays: int, until: float
) -> Iterator[Tried]:
    """Candidates one after another.

    Parameters
    ----------
    parent : Parent
        The call.
    own : Measured
        The call, measured by as many plays.
    start : int
        Number of the first draw; each has its own chance. [-]
    plays : int
        Of each trainee. [-]
    until : float
        When no further one is begun, by ``time.monotonic``. [s]

    Yields
    ------
    Tried
    """
    number = start
    while time.monotonic() < until:
        yield _tried(parent, own, number, plays)
        number += 1


def _tried(parent: Parent, own: Measured, number: int, plays: int) -> Tried:
    chance = np.random.default_rng((number, crc32(parent.name.encode())))
    try:
        recipe = candidate(parent, chance)
    except Unequal as reason:
        return Tried(number=number, recipe=None, measured=None, reasons=(str(reason),))
    version = made(parent, recipe)
    played: dict[str, Played] = {}
    for who in ORDER:
        played[who] = plays_of(version, who, named=parent.name, plays=plays)
        reasons = _so_far(who, played[who], own)
        if reasons:
            return Tried(number=number, recipe=recipe, measured=None, reasons=reasons)
    found = Measured(
        difficulty=difficulty(version, played),
        scores={who: played[who].score for who in TRAINEES},
    )
    return Tried(
        number=number, recipe=recipe, measured=found, reasons=tuple(differences(own, found))
    )


def _so_far(who: str, play: Played, own: Measured) -> tuple[str, ...]:
    """What one trainee's plays say against a candidate."""
    reasons = []
    if abs(play.score - own.scores[who]) > POINTS:
        reasons.append(f"{who} scores {play.score:.1f} beside {own.scores[who]:.1f}")
    minutes = own.difficulty.minutes
    if who == REFERENCE and not is_near("minutes", minutes, play.minutes):
        reasons.append(f"minutes to 10:1: {play.minutes:.1f} beside {minutes:.1f}")
    return tuple(reasons)
