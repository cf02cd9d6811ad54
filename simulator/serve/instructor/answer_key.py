"""An answer key with the work order it belongs to."""

from functools import lru_cache
from typing import Any

from simulator.calls.view import work_order
from simulator.scoring import answer_key as key
from simulator.serve.visits.closed_visits import site_for_paper


@lru_cache(maxsize=32)
def answer_key(call: str) -> dict[str, Any]:
    """What the page shows.

    Parameters
    ----------
    call : str
        Which call.

    Returns
    -------
    dict
        ``order`` and ``key``.
    """
    site = site_for_paper(call)
    return {"order": work_order(site), "key": key.answer_key(site)}
