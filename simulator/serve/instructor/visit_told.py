"""One visit as its instructor reads it: what was done, and the trainee's own words."""

from typing import Any

from simulator.calls.events import Event, Marked, Moved, WrittenUp
from simulator.calls.visit import fold
from simulator.scoring.telling import told
from simulator.serve.classes.files import reflections
from simulator.serve.visits import visits
from simulator.serve.visits.closed_visits import site_of


def visit_told(token: str) -> dict[str, Any]:
    """A visit in words; it goes to nobody but the instructor of its class.

    Parameters
    ----------
    token : str
        Of the visit, open or closed.

    Returns
    -------
    dict
        ``write_up`` as typed, empty where there is none; ``answers``, question and answer, from
        the debrief; ``steps``, each with its ``minute`` on site and ``text``.
    """
    visit = fold(visits.records().events(token))
    site = site_of(token)
    return {
        "write_up": visit.write_up or "",
        "answers": reflections().answers(token),
        "steps": [
            {"minute": round(event.minute), "text": told(event, site, "us")}
            for event in visit.events
            if _tells(event)
        ],
    }


def _tells(event: Event) -> bool:
    """Walking shows by what follows; a write-up is saved as often as one likes."""
    return not isinstance(event, Marked | Moved | WrittenUp)
