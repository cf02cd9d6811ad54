"""Sound installations of calls, each worked out once for all pages of a bench.

A unit known by its published points alone is drawn to them, which takes seconds of a processor;
what comes of it is public and small.
"""

from functools import lru_cache

from simulator.calls.kept_tables import kept
from simulator.plant.catalogue import REFERENCE, load_installation
from simulator.plant.installation import Installation

# Their own: the first view of a page waits for a unit, and shall not for a table.
QUEUE = "units"


@lru_cache(maxsize=64)
def sound_unit(unit: str, metering: str, house: str) -> Installation:
    """What a call's papers say stands there, without anything wrong.

    Parameters
    ----------
    unit, metering, house : str
        As in the call's file.

    Returns
    -------
    Installation
        As ``load_installation`` gives it.
    """
    if unit == REFERENCE:
        return load_installation(unit=unit, metering=metering, house=house)
    wanted = ("sound unit", unit, metering, house)
    return kept(wanted, lambda: load_installation(unit, metering, house), QUEUE)
