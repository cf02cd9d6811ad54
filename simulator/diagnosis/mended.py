"""Where belief goes when an act has mended what it mends."""

import numpy as np

from simulator.diagnosis.expected import Expected
from simulator.faults._catalogue import discover
from simulator.quantities.values import Array


def mended(table: Expected, cells: Array, act: str) -> Array:
    """Belief over the cells after a repair, before anything is read again.

    Parameters
    ----------
    table : Expected
        Of the call.
    cells : array
        Probability of each cell before it. [-]
    act : str
        The repair.

    Returns
    -------
    array
        Probability of each cell after it. [-]
    """
    catalogue = discover()
    sets = [one.causes for one in table.listed]
    left = [
        tuple(cause for cause in causes if act not in catalogue[cause].repairs) for causes in sets
    ]
    owner = [sets[place] for place in table.owner]
    found = cells.copy()
    for place, hypothesis in enumerate(table.owner):
        if left[hypothesis] == sets[hypothesis]:
            continue
        found[place] -= cells[place]
        goals = np.array([causes == left[hypothesis] for causes in owner])
        if not goals.any():
            goals = np.array([causes == () for causes in owner])
        share = np.where(goals, table.weight, 0.0)
        found += cells[place] * share / share.sum()
    # A repair may fail, or do more than it was meant to.
    mixed: Array = 0.98 * np.maximum(found, 0.0) + 0.02 * table.weight
    whole: Array = mixed / mixed.sum()
    return whole
