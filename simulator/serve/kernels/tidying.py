"""A kernel's spare moments: what Python puts by for later use is given up now and then.

Until a full collection Python 3.11 keeps up to 2,000 freed tuples of each length. In a forked
kernel that collection never comes by itself: it waits for a quarter of all that the parent held.
"""

import asyncio
import gc
from itertools import count
from typing import Any

from simulator.widgets.panel import Handle

EVERY = 16  # answers [-]
AFTER = 0.1  # an answer, which is on its way by then [s]


def tidied(handle: Handle) -> Handle:
    """A handler after whose answers there is a collection now and then.

    Parameters
    ----------
    handle : callable
        Takes a message, gives an answer.

    Returns
    -------
    callable
        Gives the same answer.
    """
    answers = count(1)

    def answer(message: dict[str, Any]) -> dict[str, Any]:
        told = handle(message)
        # Where nothing is frozen, all that is loaded would be gone through: a tenth of a second.
        if next(answers) % EVERY == 0 and gc.get_freeze_count():
            asyncio.get_running_loop().call_later(AFTER, gc.collect)
        return told

    return answer
