"""A whole visit played by somebody who only sees what a trainee sees."""

from collections.abc import Callable

import numpy as np

from simulator.calls import actions, events
from simulator.calls.call_file import CallFile
from simulator.calls.decide import Refused, decide
from simulator.calls.site import Site
from simulator.calls.visit import Visit, advanced
from simulator.diagnosis.causes import codes

Trainee = Callable[[Visit, CallFile, np.random.Generator], actions.Action | None]
MOST_ACTIONS = 250
MOST_REFUSED = 40


class NeverEnds(RuntimeError):
    """Somebody who does not close a visit."""


def played(site: Site, trainee: Trainee, chance: np.random.Generator) -> Visit:
    """A visit from arrival to leaving.

    Parameters
    ----------
    site : Site
        Where; only what tools and people tell of it reaches the trainee.
    trainee : callable
        Chooses the next action from visit and work order.
    chance : Generator
        The trainee's own.

    Returns
    -------
    Visit
        Closed.

    Raises
    ------
    NeverEnds
        If it is not closed after very many actions.
    """
    visit = advanced(Visit(), events.Opened(seq=0, minute=0.0, is_running=site.call.is_running))
    refused = 0
    for _ in range(MOST_ACTIONS):
        action = trainee(visit, site.call, chance)
        if action is None:
            return visit
        try:
            happened = decide(visit, action, site=site, causes=codes())
        except Refused:
            refused += 1
            if refused > MOST_REFUSED:
                break
            continue
        for event in happened:
            visit = advanced(visit, event)
        if visit.is_closed:
            return visit
    raise NeverEnds(f"Not closed after {len(visit.events)} events; last: {visit.events[-1]}")
