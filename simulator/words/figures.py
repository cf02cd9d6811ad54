"""Figures: numbers with their units, which stay as they are in every language."""

import re
from collections.abc import Callable

_UNITS = (
    *("%", "°F", "°C", "K", "psig", "psi", "psia", "kPa", "Pa", "in wc", "cfm", "L/s", "ft", "m"),
    *("A", "V", "mV", "Ω", "µF", "W", "kW", "kWh", "Btu/h", "lb", "kg", "oz", "g", "lb/min"),
    *("g/s", "lb/h", "kg/h", "gr/lb", "g/kg", "ppm", "min", "h", "in²", "cm²", "rpm", "fpm"),
)
_NUMBER = r"[$±−+-]?\d[\d,]*(?:\.\d+)?"
_FIGURE = rf"{_NUMBER}(?:[ \u00a0](?:{'|'.join(map(re.escape, _UNITS))}))?"
_ALONE = re.compile(_FIGURE)
_NAMED = re.compile(rf"(.+?)(:? )({_FIGURE})")
_COUNTED = re.compile(rf"({_NUMBER}[ \u00a0])(.+)")


def is_figure(text: str) -> bool:
    """Whether a text is a number, with a unit or without.

    Parameters
    ----------
    text : str
        Anything.

    Returns
    -------
    bool
    """
    return _ALONE.fullmatch(text) is not None


def beside_figure(text: str, exact: Callable[[str], str | None]) -> str | None:
    """A name before a figure or counted by one: ``supply plenum 61 °F``, ``2 clean filters``.

    Parameters
    ----------
    text : str
        English.
    exact : callable
        What is said for a name; none for what is no name.

    Returns
    -------
    str or None
        None where the text is something else.
    """
    if is_figure(text):
        return text
    named = _NAMED.fullmatch(text)
    if named is not None and (name := exact(named[1])) is not None:
        return name + named[2] + named[3]
    counted = _COUNTED.fullmatch(text)
    if counted is not None and (name := exact(counted[2])) is not None:
        return counted[1] + name
    return None
