"""Refrigerant states from tables; CoolProp made them and is not needed to read them."""

from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from typing import NamedTuple

import numpy as np

from simulator.quantities.values import Array, Values


class Saturation(NamedTuple):
    """Both saturation lines at one pressure: [K], [J/kg], [kg/m³], [J/(kg K)]."""

    dew_temperature: Values
    bubble_temperature: Values
    vapour_enthalpy: Values
    liquid_enthalpy: Values
    vapour_density: Values
    liquid_density: Values
    vapour_entropy: Values
    liquid_entropy: Values
    vapour_heat_capacity: Values
    liquid_heat_capacity: Values


class Vapour(NamedTuple):
    """Superheated state: [K], [kg/m³], [J/(kg K)]."""

    temperature: Values
    density: Values
    entropy: Values


class Liquid(NamedTuple):
    """Subcooled state: [K], [kg/m³]."""

    temperature: Values
    density: Values


@dataclass(frozen=True, slots=True)
class Refrigerant:
    """One refrigerant's tables.

    Parameters
    ----------
    name : str
        As on the plate.
    first, step : float
        Of the pressure grid's logarithm. [-]
    lines : array
        Cubic coefficients of the saturation lines, shape (cells, 4, 10). [-]
    surfaces : tuple
        Bicubic coefficients of vapour, isentrope and liquid, shape (cells, 4, 4, k). [-]
    shape : tuple
        Cells of the surfaces in pressure and in distance.
    reach : array
        Largest distances. [-]
    """

    name: str
    first: float
    step: float
    lines: Array
    surfaces: tuple[Array, Array, Array]
    shape: tuple[int, int]
    reach: Array

    @property
    def lowest_pressure(self) -> float:
        """Where the table begins.

        Returns
        -------
        float
            Absolute. [Pa]
        """
        return float(np.exp(self.first))

    @property
    def highest_pressure(self) -> float:
        """Where the table ends; above every usual high-pressure switch.

        Returns
        -------
        float
            Absolute. [Pa]
        """
        return float(np.exp(self.first + self.step * len(self.lines)))

    def saturation(self, log_pressure: Values) -> Saturation:
        """Both saturation lines, all properties at once.

        Parameters
        ----------
        log_pressure : float
            Natural logarithm of absolute pressure over one pascal. [-]

        Returns
        -------
        Saturation
            Held at the table's ends.
        """
        return Saturation(*self._lines(np.asarray(log_pressure, dtype=float)))

    def _lines(self, log_pressure: Array) -> Array:
        place = np.clip((log_pressure - self.first) / self.step, 0.0, len(self.lines) - 1e-9)
        cell = place.astype(np.intp)
        t = (place - cell)[..., None]
        c = self.lines[cell]
        value = ((c[..., 3, :] * t + c[..., 2, :]) * t + c[..., 1, :]) * t + c[..., 0, :]
        return np.ascontiguousarray(np.moveaxis(value, -1, 0))

    def dew_temperature(self, pressure: Values) -> Array:
        """Temperature at which vapour begins to condense.

        Parameters
        ----------
        pressure : float
            Absolute. [Pa]

        Returns
        -------
        array
            [K]
        """
        found: Array = self._lines(np.log(np.asarray(pressure, dtype=float)))[0]
        return found

    def bubble_temperature(self, pressure: Values) -> Array:
        """Temperature at which liquid begins to boil.

        Parameters
        ----------
        pressure : float
            Absolute. [Pa]

        Returns
        -------
        array
            [K]
        """
        found: Array = self._lines(np.log(np.asarray(pressure, dtype=float)))[1]
        return found

    def dew_pressure(self, temperature: Values) -> Array:
        """Pressure of saturated vapour.

        Parameters
        ----------
        temperature : float
            [K]

        Returns
        -------
        array
            Absolute. [Pa]
        """
        return self._pressure(temperature, 0)

    def bubble_pressure(self, temperature: Values) -> Array:
        """Pressure of saturated liquid.

        Parameters
        ----------
        temperature : float
            [K]

        Returns
        -------
        array
            Absolute. [Pa]
        """
        return self._pressure(temperature, 1)

    def _pressure(self, temperature: Values, column: int) -> Array:
        wanted = np.asarray(temperature, dtype=float)
        nodes = self.lines[:, 0, column]
        cell = np.clip(np.searchsorted(nodes, wanted) - 1, 0, len(nodes) - 1)
        c = self.lines[cell, :, column]
        offset = wanted - c[..., 0]
        t = offset / c[..., 1]
        for _ in range(3):
            value = ((c[..., 3] * t + c[..., 2]) * t + c[..., 1]) * t
            slope = (3.0 * c[..., 3] * t + 2.0 * c[..., 2]) * t + c[..., 1]
            t = t - (value - offset) / slope
        found: Array = np.exp(self.first + self.step * (cell + np.clip(t, -1.0, 2.0)))
        return found

    def vapour(self, log_pressure: Values, line: Saturation, enthalpy_above_dew: Values) -> Vapour:
        """Superheated vapour from its enthalpy above the dew line.

        Parameters
        ----------
        log_pressure : float
            Natural logarithm of absolute pressure over one pascal. [-]
        line : Saturation
            At that pressure.
        enthalpy_above_dew : float
            Not negative. [J/kg]

        Returns
        -------
        Vapour
        """
        q = self._surface(0, log_pressure, enthalpy_above_dew)
        return Vapour(
            line.dew_temperature + q[0] * enthalpy_above_dew,
            line.vapour_density * np.exp(q[1] * enthalpy_above_dew),
            line.vapour_entropy + q[2] * enthalpy_above_dew,
        )

    def vapour_enthalpy_above_dew(
        self, log_pressure: Values, line: Saturation, entropy_above_dew: Values
    ) -> Array:
        """Enthalpy above the dew line from entropy above it.

        Parameters
        ----------
        log_pressure : float
            Natural logarithm of absolute pressure over one pascal. [-]
        line : Saturation
            At that pressure.
        entropy_above_dew : float
            Not negative. [J/(kg K)]

        Returns
        -------
        array
            [J/kg]
        """
        del line
        rise: Array = self._surface(1, log_pressure, entropy_above_dew)[0] * entropy_above_dew
        return rise

    def liquid(
        self, log_pressure: Values, line: Saturation, enthalpy_below_bubble: Values
    ) -> Liquid:
        """Subcooled liquid from its enthalpy below the bubble line.

        Parameters
        ----------
        log_pressure : float
            Natural logarithm of absolute pressure over one pascal. [-]
        line : Saturation
            At that pressure.
        enthalpy_below_bubble : float
            Not negative. [J/kg]

        Returns
        -------
        Liquid
        """
        q = self._surface(2, log_pressure, enthalpy_below_bubble)
        return Liquid(
            line.bubble_temperature - q[0] * enthalpy_below_bubble,
            line.liquid_density * np.exp(q[1] * enthalpy_below_bubble),
        )

    def _surface(self, which: int, log_pressure: Values, distance: Values) -> Array:
        """Bicubic quotients; the last one is held beyond the table's reach."""
        rows, columns = self.shape
        span = self.step * len(self.lines) / rows
        x = np.clip((np.asarray(log_pressure) - self.first) / span, 0.0, rows - 1e-9)
        y = np.clip(np.asarray(distance) * (columns / self.reach[which]), 0.0, columns - 1e-9)
        x, y = np.broadcast_arrays(x, y)
        row, column = x.astype(np.intp), y.astype(np.intp)
        u, v = x - row, y - column
        # One gather, then one product with the sixteen powers: fast alone and in batches.
        c = self.surfaces[which][row * columns + column]
        across = np.stack([np.ones_like(u), u, u * u, u * u * u], axis=-1)
        along = np.stack([np.ones_like(v), v, v * v, v * v * v], axis=-1)
        found: Array = np.einsum("...abk,...a,...b->k...", c, across, along)
        return found


_HERMITE = np.array([[1, 0, 0, 0], [0, 0, 1, 0], [-3, 3, -2, -1], [2, -2, 1, 1]], dtype=float)


def _cubic_cells(values: Array, slopes: Array) -> Array:
    """Coefficients (cells, 4, k) from nodal values and slopes per cell."""
    corners = np.stack([values[:-1], values[1:], slopes[:-1], slopes[1:]], axis=1)
    found: Array = np.einsum("ab,cbk->cak", _HERMITE, corners)
    return found


def _bicubic_cells(values: Array) -> Array:
    """Coefficients (cells, 4, 4, k) from nodal values, slopes by central differences."""
    across = np.gradient(values, axis=0, edge_order=2)
    along = np.gradient(values, axis=1, edge_order=2)
    both = np.gradient(across, axis=1, edge_order=2)

    def pair(table: Array, left: bool, low: bool) -> Array:
        rows = table[:-1] if left else table[1:]
        return rows[:, :-1] if low else rows[:, 1:]

    block = np.stack(
        [
            np.stack(
                [
                    pair(f, left, True),
                    pair(f, left, False),
                    pair(g, left, True),
                    pair(g, left, False),
                ],
                axis=2,
            )
            for f, g in ((values, along), (across, both))
            for left in (True, False)
        ],
        axis=2,
    )  # (r, c, 4: f0 f1 fx0 fx1, 4 in y, k)
    coefficients = np.einsum("ap,bq,rcpqk->rcabk", _HERMITE, _HERMITE, block, optimize=True)
    r, c, _, _, k = coefficients.shape
    return np.ascontiguousarray(coefficients.reshape(r * c, 4, 4, k))


@lru_cache
def load(name: str) -> Refrigerant:
    """A refrigerant's tables.

    Parameters
    ----------
    name : str
        As on the plate, such as R-410A.

    Returns
    -------
    Refrigerant

    Raises
    ------
    ValueError
        If no table of that name is shipped.
    """
    path = files("simulator.properties").joinpath("tables", f"{name.replace('-', '').lower()}.npz")
    if not path.is_file():
        raise ValueError(f"There is no table for the refrigerant {name}.")
    with path.open("rb") as file, np.load(file) as data:
        first, last = data["log_pressure"]
        values = data["saturation"]
        step = float(last - first) / (len(values) - 1)
        surfaces = tuple(
            _bicubic_cells(data[key].astype(float)) for key in ("vapour", "isentrope", "liquid")
        )
        rows, columns = data["vapour"].shape[:2]
        return Refrigerant(
            name=name,
            first=float(first),
            step=step,
            lines=_cubic_cells(values, data["saturation_slopes"] * step),
            surfaces=(surfaces[0], surfaces[1], surfaces[2]),
            shape=(rows - 1, columns - 1),
            reach=data["reach"],
        )
