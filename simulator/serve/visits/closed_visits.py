"""What only counts once a visit is closed, and what only an instructor may see."""

import numpy as np

from simulator.calls import call_file
from simulator.calls.choice import NO_FAULT
from simulator.calls.sealed import sealed
from simulator.calls.site import Site
from simulator.calls.visit import Visit, fold
from simulator.diagnosis.causes import name_of
from simulator.diagnosis.playing import Trainee, played
from simulator.scoring.grounds import grounds
from simulator.scoring.scorecard import Scorecard, score
from simulator.scoring.truth import shares
from simulator.serve.classes.dealing import worked
from simulator.serve.visits import graded, visits


def closed_card(token: str) -> Scorecard | None:
    """What a visit was worth, as stored; as far as it is settled where it is not.

    Parameters
    ----------
    token : str
        Of the visit.

    Returns
    -------
    Scorecard or None
        None while it is open: nothing is graded before the end.
    """
    visit = fold(visits.records().events(token))
    return graded.so_far(token, visit, site_of(token)) if visit.is_closed else None


def final_card(token: str) -> Scorecard | None:
    """The same, worked out and stored where it was not; that takes seconds.

    Parameters
    ----------
    token : str
        Of the visit.

    Returns
    -------
    Scorecard or None
        None while it is open.
    """
    visit = fold(visits.records().events(token))
    return graded.final(token, visit, site_of(token)) if visit.is_closed else None


def site_of(token: str) -> Site:
    """The house of a visit, with the key: for the server's own eyes.

    Parameters
    ----------
    token : str
        Of the visit.

    Returns
    -------
    Site
        Of the version that was dealt.
    """
    record = visits.records().record(token)
    call = worked(record)
    return Site(call_file.load(call), sealed(call), record.seed)


def true_causes(token: str) -> tuple[str, ...]:
    """What there was to find on a closed visit.

    Parameters
    ----------
    token : str
        Of the visit.

    Returns
    -------
    tuple of str
        Codes; empty while it is open.
    """
    if not fold(visits.records().events(token)).is_closed:
        return ()
    return tuple(shares(sealed(worked(visits.records().record(token))).opened()))


def causes_on_paper(call: str) -> list[str]:
    """What there is to find at a call, for the instructor who chooses among calls.

    Parameters
    ----------
    call : str
        Which call or version.

    Returns
    -------
    list of str
        For people; empty where nothing is wrong.

    Raises
    ------
    CallFileError
        If there is no such call.
    """
    return [name_of(code) for code in shares(sealed(call).opened()) if code != NO_FAULT]


def site_for_paper(call: str) -> Site:
    """A call's site with the scatter of no visit, for an instructor's answer key.

    Parameters
    ----------
    call : str
        Which call or version.

    Returns
    -------
    Site

    Raises
    ------
    CallFileError
        If there is no such call.
    """
    return Site(call_file.load(call), sealed(call), 0)


def simulated(
    call: str, trainee: Trainee, seed: int, chance: np.random.Generator
) -> tuple[Visit, Scorecard]:
    """A visit of a simulated trainee, and what it was worth.

    Parameters
    ----------
    call : str
        Which call.
    trainee : callable
        Chooses each action from what was shown.
    seed : int
        Of the visit's chance.
    chance : Generator
        The trainee's own.

    Returns
    -------
    tuple

    Raises
    ------
    CallFileError
        If there is no such call.
    """
    site = Site(call_file.load(call), sealed(call), seed)
    visit = played(site, trainee, chance)
    return visit, score(visit.events, sealed(call).opened(), grounds(visit, site))
