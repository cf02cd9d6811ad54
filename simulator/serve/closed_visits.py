"""What only counts once a visit is closed, and what only an instructor may see."""

from simulator.calls import call_file
from simulator.calls.sealed import sealed
from simulator.calls.site import Site
from simulator.calls.visit import fold
from simulator.scoring.scorecard import Scorecard, score
from simulator.serve import visits


def closed_card(token: str) -> Scorecard | None:
    """What a visit was worth.

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
    if not visit.is_closed:
        return None
    return score(visit.events, sealed(visits.records().record(token).call).opened())


def site_for_paper(call: str) -> Site:
    """A call's site with the scatter of no visit, for an instructor's answer key.

    Parameters
    ----------
    call : str
        Which call.

    Returns
    -------
    Site

    Raises
    ------
    CallFileError
        If there is no such call.
    """
    return Site(call_file.load(call), sealed(call), 0)
