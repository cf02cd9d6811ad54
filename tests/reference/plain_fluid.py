"""A refrigerant answered by CoolProp at every call, with the interface of the tables."""

from dataclasses import dataclass
from typing import Any

import numpy as np
from CoolProp.CoolProp import PropsSI

from simulator.properties.refrigerant import Liquid, Saturation, Vapour

STEP = 0.02  # K, off the line for a heat capacity


@dataclass(frozen=True)
class PlainFluid:
    """As ``simulator.properties.refrigerant.Refrigerant``; pure fluids and R-410A only."""

    name: str
    coldest: float = 225.0
    hottest: float = 339.26

    @property
    def key(self) -> str:
        """CoolProp's name."""
        return self.name.replace("-", "")

    @property
    def lowest_pressure(self) -> float:
        """Where the search begins. [Pa]"""
        return float(PropsSI("P", "T", self.coldest, "Q", 1, self.key))

    @property
    def highest_pressure(self) -> float:
        """Where the search ends. [Pa]"""
        return float(PropsSI("P", "T", self.hottest, "Q", 1, self.key))

    def saturation(self, log_pressure: Any) -> Saturation:
        """Both lines."""
        return Saturation(*_each(self._saturation, log_pressure))

    def _saturation(self, log_pressure: float) -> tuple[float, ...]:
        p = float(np.exp(log_pressure))
        dew, bubble = (PropsSI("T", "P", p, "Q", q, self.key) for q in (1, 0))
        found = [dew, bubble]
        for key in ("H", "D", "S"):
            found += [PropsSI(key, "P", p, "Q", q, self.key) for q in (1, 0)]
        warm = PropsSI("H", "P", p, "T", dew + STEP, self.key)
        cool = PropsSI("H", "P", p, "T", bubble - STEP, self.key)
        return (*found, (warm - found[2]) / STEP, (found[3] - cool) / STEP)

    def dew_temperature(self, pressure: Any) -> Any:
        """At a pressure."""
        return _each(lambda p: (PropsSI("T", "P", p, "Q", 1, self.key),), pressure)[0]

    def bubble_temperature(self, pressure: Any) -> Any:
        """At a pressure."""
        return _each(lambda p: (PropsSI("T", "P", p, "Q", 0, self.key),), pressure)[0]

    def dew_pressure(self, temperature: Any) -> Any:
        """At a temperature."""
        return _each(lambda t: (PropsSI("P", "T", t, "Q", 1, self.key),), temperature)[0]

    def bubble_pressure(self, temperature: Any) -> Any:
        """At a temperature."""
        return _each(lambda t: (PropsSI("P", "T", t, "Q", 0, self.key),), temperature)[0]

    def vapour(self, log_pressure: Any, line: Saturation, above: Any) -> Vapour:
        """Superheated, from enthalpy above dew."""

        def state(log: float, dew: float, more: float) -> tuple[float, ...]:
            p, h = float(np.exp(log)), dew + max(more, 1e-3)
            return tuple(PropsSI(key, "P", p, "H", h, self.key) for key in ("T", "D", "S"))

        return Vapour(*_each(state, log_pressure, line.vapour_enthalpy, above))

    def vapour_enthalpy_above_dew(self, log_pressure: Any, line: Saturation, above: Any) -> Any:
        """From entropy above dew."""

        def rise(log: float, dew: float, entropy: float, more: float) -> tuple[float, ...]:
            p, s = float(np.exp(log)), entropy + max(more, 1e-6)
            return (PropsSI("H", "P", p, "S", s, self.key) - dew,)

        return _each(rise, log_pressure, line.vapour_enthalpy, line.vapour_entropy, above)[0]

    def liquid(self, log_pressure: Any, line: Saturation, below: Any) -> Liquid:
        """Subcooled, from enthalpy below bubble."""

        def state(log: float, bubble: float, less: float) -> tuple[float, ...]:
            p, h = float(np.exp(log)), bubble - max(less, 1e-3)
            return tuple(PropsSI(key, "P", p, "H", h, self.key) for key in ("T", "D"))

        return Liquid(*_each(state, log_pressure, line.liquid_enthalpy, below))


def _each(function: Any, *arguments: Any) -> list[Any]:
    """A scalar function with several results, on arrays of one shape."""
    arrays = np.broadcast_arrays(*(np.asarray(one, dtype=float) for one in arguments))
    rows = [function(*values) for values in zip(*(a.ravel() for a in arrays), strict=True)]
    return [np.array(column).reshape(arrays[0].shape) for column in zip(*rows, strict=True)]
