"""The shipped refrigerant tables, turned into polynomials as they are loaded."""

import tomllib
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Literal, NamedTuple

import numpy as np

from simulator.quantities.values import Array


@dataclass(frozen=True, slots=True)
class Facts:
    """What a technician knows of a refrigerant before the gauges are on.

    Parameters
    ----------
    name : str
        As on the plate.
    safety_class : str
        Toxicity and flammability group of ASHRAE Standard 34.
    is_zeotrope : bool
        Whether it boils over a range of temperatures at one pressure.
    blend : str
        What it is mixed of, by mass; empty for a single substance.
    """

    name: str
    safety_class: Literal["A1", "A2L"]
    is_zeotrope: bool
    blend: str


class Tables(NamedTuple):
    """What ``refrigerant.Refrigerant`` takes, in its order and units: [-], [J/kg], [J/(kg K)]."""

    first: float
    step: float
    lines: Array
    surfaces: tuple[Array, Array, Array]
    reach: Array
    coldest_liquid: float


def _package() -> Traversable:
    return files("simulator.properties")


@lru_cache
def facts() -> dict[str, Facts]:
    """Every refrigerant of the package.

    Returns
    -------
    dict
        By name.
    """
    text = _package().joinpath("refrigerants.toml").read_text(encoding="utf-8")
    return {name: Facts(name=name, **row) for name, row in tomllib.loads(text).items()}


def known() -> tuple[str, ...]:
    """Names of the refrigerants that can be loaded.

    Returns
    -------
    tuple
        As on the plate, in alphabetical order.
    """
    return tuple(sorted(facts()))


def read(name: str) -> Tables:
    """A refrigerant's tables.

    Parameters
    ----------
    name : str
        As on the plate, such as R-410A.

    Returns
    -------
    Tables

    Raises
    ------
    ValueError
        If no table of that name is shipped.
    """
    path = _package().joinpath("tables", f"{name.replace('-', '').lower()}.npz")
    if not path.is_file():
        raise ValueError(f"There is no table for the refrigerant {name}.")
    with path.open("rb") as file, np.load(file) as data:
        first, last = data["log_pressure"]
        values = data["saturation"]
        step = float(last - first) / (len(values) - 1)
        return Tables(
            first=float(first),
            step=step,
            lines=_cubic_cells(values, data["saturation_slopes"] * step),
            surfaces=(
                _bicubic_cells(data["vapour"].astype(float)),
                _bicubic_cells(data["isentrope"].astype(float)),
                _bicubic_cells(data["liquid"].astype(float)),
            ),
            reach=data["reach"],
            coldest_liquid=float(data["coldest_liquid"]),
        )


def _hermite(left: Array, right: Array, left_slope: Array, right_slope: Array) -> list[Array]:
    """Coefficients of the cubic with these values and slopes at 0 and 1.

    Sums only: a matrix product would wait for its threads where other work fills the cores.
    """
    rise = right - left
    return [
        left,
        left_slope,
        3.0 * rise - 2.0 * left_slope - right_slope,
        left_slope + right_slope - 2.0 * rise,
    ]


def _cubic_cells(values: Array, slopes: Array) -> Array:
    """Coefficients (4, k, cells) from nodal values and slopes per cell."""
    cells = np.stack(_hermite(values[:-1], values[1:], slopes[:-1], slopes[1:]))
    return np.ascontiguousarray(np.swapaxes(cells, 1, 2))


def _bicubic_cells(values: Array) -> Array:
    """Coefficients (4, 4, k, rows, columns) from nodal values, slopes by central differences."""
    value = np.ascontiguousarray(np.moveaxis(values, -1, 0))
    along = np.gradient(value, axis=2, edge_order=2)
    found = np.empty((4, 4, len(value), value.shape[1] - 1, value.shape[2] - 1))
    rows = [
        _hermite(part[:, :-1], part[:, 1:], slope[:, :-1], slope[:, 1:])
        for part in (value, along)
        for slope in [np.gradient(part, axis=1, edge_order=2)]
    ]
    for power, (part, slope) in enumerate(zip(*rows, strict=True)):
        cells = _hermite(part[..., :-1], part[..., 1:], slope[..., :-1], slope[..., 1:])
        for other, cell in enumerate(cells):
            found[power, other] = cell
    return found
