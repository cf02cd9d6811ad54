"""Refrigerant states from tables; CoolProp made them and is not needed to read them."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from simulator.properties import refrigerant_tables
from simulator.properties.refrigerant_states import Liquid, Saturation, Vapour
from simulator.properties.refrigerant_tables import facts, known
from simulator.quantities.values import Array, Values, held

__all__ = ["Liquid", "Refrigerant", "Saturation", "Vapour", "facts", "known", "load"]


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
        Cubic coefficients of the saturation lines, shape (4, 10, cells). [-]
    surfaces : tuple
        Bicubic coefficients of vapour, isentrope and liquid, shape (4, 4, k, rows, columns),
        rows in pressure and columns in distance from the line. [-]
    reach : array
        Largest distances from the line: of vapour by enthalpy and by entropy, of liquid by
        enthalpy. Farther states are held there. [J/kg], [J/(kg K)], [J/kg]
    coldest_liquid : float
        Enthalpy below which the equation of state gives no valid liquid. [J/kg]
    """

    name: str
    first: float
    step: float
    lines: Array
    surfaces: tuple[Array, Array, Array]
    reach: Array
    coldest_liquid: float

    @property
    def cells(self) -> int:
        """Number of cells of the pressure grid.

        Returns
        -------
        int
            [-]
        """
        return int(self.lines.shape[-1])

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
        return float(np.exp(self.first + self.step * self.cells))

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
        place = held((log_pressure - self.first) / self.step, 0.0, self.cells - 1e-9)
        cell = place.astype(np.intp)
        t = place - cell
        # Properties first: each is then one contiguous gather, fast alone and in batches.
        c = self.lines.take(cell, axis=-1)
        value: Array = ((c[3] * t + c[2]) * t + c[1]) * t + c[0]
        return value

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
        nodes = self.lines[0, column]
        top = self.lines[:, column, -1].sum()
        # Held at both ends: colder is no air conditioner, hotter is a trip.
        wanted = held(np.asarray(temperature, dtype=float), nodes[0], top)
        cell = np.maximum(nodes.searchsorted(wanted) - 1, 0)
        c = self.lines[:, column].take(cell, axis=-1)
        offset = wanted - c[0]
        # The square term is 0.2 % of a cell at most: its series, then one step of Newton's.
        t = offset / c[1]
        t = t - c[2] / c[1] * t * t
        value = ((c[3] * t + c[2]) * t + c[1]) * t
        slope = (3.0 * c[3] * t + 2.0 * c[2]) * t + c[1]
        t = t - (value - offset) / slope
        found: Array = np.exp(self.first + self.step * (cell + held(t, 0.0, 1.0)))
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
        above = np.minimum(enthalpy_above_dew, self.reach[0])
        q = self._surface(0, log_pressure, above)
        return Vapour(
            line.dew_temperature + q[0] * above,
            line.vapour_density * np.exp(q[1] * above),
            line.vapour_entropy + q[2] * above,
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
        above = np.minimum(entropy_above_dew, self.reach[1])
        rise: Array = self._surface(1, log_pressure, above)[0] * above
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
        valid = np.minimum(self.reach[2], line.liquid_enthalpy - self.coldest_liquid)
        below = np.minimum(enthalpy_below_bubble, valid)
        q = self._surface(2, log_pressure, below)
        return Liquid(
            line.bubble_temperature - q[0] * below,
            line.liquid_density * np.exp(q[1] * below),
        )

    def _surface(self, which: int, log_pressure: Values, distance: Values) -> Array:
        """Bicubic quotients; callers hold the distance at the table's reach."""
        table = self.surfaces[which]
        rows, columns = table.shape[3:]
        span = self.step * self.cells / rows
        x = held((np.asarray(log_pressure) - self.first) / span, 0.0, rows - 1e-9)
        y = held(np.asarray(distance) * (columns / self.reach[which]), 0.0, columns - 1e-9)
        row, column = x.astype(np.intp), y.astype(np.intp)
        u, v = x - row, y - column
        # One gather, then Horner's rule twice.
        c = table.reshape(4, 4, -1, rows * columns).take(row * columns + column, axis=-1)
        c = ((c[3] * u + c[2]) * u + c[1]) * u + c[0]
        found: Array = ((c[3] * v + c[2]) * v + c[1]) * v + c[0]
        return found


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
    return Refrigerant(name, *refrigerant_tables.read(name))
