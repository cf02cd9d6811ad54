"""What a few plants of each cell show to eye, hand and meter where it takes single plants."""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

import numpy as np

from simulator.diagnosis.solutions import Solutions
from simulator.diagnosis.true_values import sampled
from simulator.instruments import sight
from simulator.instruments.measurement import Measurement, Seen
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.take import NO_PATH
from simulator.plant import stacking
from simulator.quantities.values import Array

LOOKED_AT = {True: (3, 2), False: (1, 1)}  # plants of each cell of one cause, of a pair
LUCK = (0.05, 0.15, 0.3, 0.5, 0.7, 0.85, 0.95)  # of one search [-]
WIDER = 1.4  # a few plants do not reach the ends of what there is [-]


@dataclass(frozen=True, slots=True, eq=False)
class Shown:
    """One measurement over all cells.

    Parameters
    ----------
    words : mapping
        Part of a cell's plants that answer in these words, shape (cells,). [-]
    number : array
        Part that gives a number, shape (cells,). [-]
    mean, spread : array or None
        Of that number, shape (cells,), in SI. [-]
    """

    words: Mapping[str, Array]
    number: Array
    mean: Array | None
    spread: Array | None


def shown(
    solved: Solutions, cells: list[np.ndarray], *, is_running: bool
) -> dict[tuple[str, str], Shown]:
    """All looks, and all measurements that take single plants.

    Parameters
    ----------
    solved : Solutions
        The batch.
    cells : list
        Columns of each cell.
    is_running : bool
        Whether the system is called on.

    Returns
    -------
    dict
        By measurement and technique; the careful one alone where numbers come back.
    """
    items = [item for name, item in MEASUREMENTS.items() if sampled(name) and item.way != "ask"]
    points = solved.running if is_running else solved.resting
    one, two = LOOKED_AT[is_running]
    picked = [
        _picked(rows, solved, two if solved.owner[rows[0]] in solved.pairs else one)
        for rows in cells
    ]
    columns = np.concatenate(picked)
    seen = [
        Seen(installation=installation, point=point)
        for installation, point in zip(
            stacking.apart(stacking.chosen(solved.installation, columns), columns.size),
            stacking.apart(stacking.chosen(points, columns), columns.size),
            strict=True,
        )
    ]
    ends = np.cumsum([0, *(len(rows) for rows in picked)]).tolist()
    found = {}
    for item in items:
        for way in item.techniques[: 1 if item.has_number else None]:
            if is_running and _takes_luck(item, way.id):
                told = [_answer(item, lucky) for one in seen for lucky in _by_luck(one, way.id)]
                each = len(LUCK)
            else:
                told = [_answer(item, replace(one, technique=way.id)) for one in seen]
                each = 1
            found[item.id, way.id] = _counted(
                [told[each * low : each * high] for low, high in pairwise(ends)]
            )
    return found


def _takes_luck(item: Measurement, technique: str) -> bool:
    return item.id == "leak_search" or (item.way == "feel" and technique != "careful")


def _picked(rows: np.ndarray, solved: Solutions, most: int) -> np.ndarray:
    """A few columns spread over the sizes of the fault."""
    ranked = rows[np.argsort(solved.drawn[solved.draw[rows], -2])]
    wanted = min(most, ranked.size)
    places = ((np.arange(wanted) + 0.5) / wanted * ranked.size).astype(int)
    return np.asarray(ranked[places])


@lru_cache(maxsize=4096)
def plain(words: str) -> str:
    """An answer without its figures, which differ from plant to plant.

    Parameters
    ----------
    words : str
        As seen.

    Returns
    -------
    str
    """
    return re.sub(r"\d+(\.\d+)?", "#", words)


def _by_luck(seen: Seen, technique: str) -> list[Seen]:
    """The same plant for every luck of one who searches."""
    return [replace(seen, technique=technique, draw=luck) for luck in LUCK]


def _answer(item: Measurement, seen: Seen) -> float | str:
    if not item.has_number:
        # A call's own words are not known here.
        return plain(sight.told(item.id, seen, {}))
    if item.unfit is not None and (said := item.unfit(seen.point)) is not None:
        return plain(said)
    value = item.true_value(seen.installation, seen.point)
    return value if math.isfinite(value) else plain(NO_PATH)


def _counted(found: list[list[float | str]]) -> Shown:
    told = dict.fromkeys(answer for cell in found for answer in cell if isinstance(answer, str))
    words = {text: np.array([cell.count(text) / len(cell) for cell in found]) for text in told}
    numbers = [[x for x in cell if not isinstance(x, str)] for cell in found]
    if not any(numbers):
        return Shown(words, np.zeros(len(found)), None, None)
    number = np.array([len(one) / len(cell) for one, cell in zip(numbers, found, strict=True)])
    every = [x for one in numbers for x in one]
    middle, wide = float(np.mean(every)), float(np.std(every))
    # Plain sums: numpy takes longer to begin than so few numbers to add up.
    means = [sum(one) / len(one) if one else middle for one in numbers]
    squares = [
        sum((x - mean) ** 2 for x in one) / len(one) if one else wide**2
        for one, mean in zip(numbers, means, strict=True)
    ]
    mean, spread = np.array(means), WIDER * np.sqrt(np.array(squares))
    return Shown(words, number, mean, spread)
