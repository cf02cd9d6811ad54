"""What a closed visit was worth: as stored, as far as it is settled, or worked out and stored."""

from dataclasses import asdict
from typing import Any

from simulator.calls.site import Site
from simulator.calls.visit import Visit
from simulator.scoring import act_classes
from simulator.scoring.debrief import debrief, in_short, points
from simulator.scoring.grounds import grounds, weather
from simulator.scoring.odds import odds_after
from simulator.scoring.part import Because, Part
from simulator.scoring.scorecard import Scorecard, score
from simulator.scoring.truth import shares
from simulator.scoring.turning import is_told, turns
from simulator.serve.classes.files import graded_visits


def stored(token: str) -> Scorecard | None:
    """The result that stands.

    Parameters
    ----------
    token : str
        Of the visit.

    Returns
    -------
    Scorecard or None
        None where it was not worked out yet.
    """
    found = graded_visits().of(token)
    if found is None:
        return None
    try:
        return _restored(found)
    except (KeyError, TypeError):
        return None


def _key(visit: Visit, site: Site) -> Any:
    if not visit.is_closed:
        raise ValueError("a visit is graded after it is closed")
    return site.key.opened()


def so_far(token: str, visit: Visit, site: Site) -> Scorecard:
    """The result that stands, or what needs no odds; at once.

    Parameters
    ----------
    token : str
        Of the visit.
    visit : Visit
        Closed.
    site : Site
        With the key.

    Returns
    -------
    Scorecard
        Not final where parts wait for the odds.
    """
    found = stored(token)
    return found or score(visit.events, _key(visit, site), weather(visit, site))


def final(token: str, visit: Visit, site: Site) -> Scorecard:
    """The result that stands; worked out and stored where there is none.

    Parameters
    ----------
    token : str
        Of the visit.
    visit : Visit
        Closed.
    site : Site
        With the key.

    Returns
    -------
    Scorecard
        Some seconds where the table of the call is not there yet.
    """
    found = stored(token)
    if found is None:
        found = score(visit.events, _key(visit, site), grounds(visit, site))
        graded_visits().add(token, found.version, asdict(found))
    return found


def first_answer(token: str, visit: Visit, site: Site, system: str) -> dict[str, Any]:
    """The debrief, at once; parts that need odds stay open where no result is stored.

    Parameters
    ----------
    token : str
        Of the visit.
    visit : Visit
        Closed.
    site : Site
        With the key.
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    dict
    """
    found = debrief(visit, site, system, stored(token))
    if is_told(frozenset(shares(_key(visit, site))), site):
        # The second answer tells it by the odds, as a class debrief does.
        found["turning_point"] = ""
    return found


def second_answer(token: str, visit: Visit, site: Site) -> dict[str, Any]:
    """What a debrief that was opened before the odds were known still lacks.

    Parameters
    ----------
    token : str
        Of the visit.
    visit : Visit
        Closed.
    site : Site
        With the key.

    Returns
    -------
    dict
        ``odds``, ``turns``, ``acts``, ``in_short`` and the points.
    """
    card, key = final(token, visit, site), _key(visit, site)
    short = in_short(visit, key, card)
    acts = act_classes.told(visit, key, grounds(visit, site))
    found = {str(seq): one for seq, one in odds_after(visit, site).items()}  # text for the wire
    told = {"odds": found, "turns": turns(visit, site)}
    return {**told, **points(card, visit), "in_short": short, "acts": acts}


def _restored(found: dict[str, Any]) -> Scorecard:
    parts = tuple(
        Part(**{**one, "because": tuple(Because(**why) for why in one["because"])})
        for one in found["parts"]
    )
    lists = {name: tuple(found[name]) for name in ("harm", "invalid")}
    # Results from before they were kept have none; one without its harm does not stand.
    lists["regrets"] = tuple(found.get("regrets", ()))
    return Scorecard(**{**found, **lists, "parts": parts})
