"""From SI to what a person reads, and back."""

from dataclasses import dataclass
from typing import TypeVar

import numpy as np

from simulator.quantities.kinds import KINDS, Display
from simulator.quantities.values import Array

Number = TypeVar("Number", float, Array)
MINUS = "\N{MINUS SIGN}"
SYSTEMS = ("us", "si")


@dataclass(frozen=True, slots=True)
class Shown:
    """A quantity as printed.

    Parameters
    ----------
    text : str
        The number, with a true minus sign.
    number : float
        The same, rounded. [-]
    unit : str
        As printed after it.
    """

    text: str
    number: float
    unit: str

    def __str__(self) -> str:
        """Number and unit."""
        return f"{self.text} {self.unit}".strip()


def display(kind: str, system: str) -> Display:
    """How a system shows a kind.

    Parameters
    ----------
    kind : str
        Of quantity.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    Display

    Raises
    ------
    ValueError
        For an unknown kind or system.
    """
    if kind not in KINDS:
        raise ValueError(f"There is no kind of quantity called {kind}.")
    if system not in SYSTEMS:
        raise ValueError(f"Units are us or si, not {system}.")
    return KINDS[kind].us if system == "us" else KINDS[kind].metric


def to_display(value: Number, kind: str, system: str = "us") -> Number:
    """A number in the shown unit, not rounded.

    Parameters
    ----------
    value : float or array
        In SI. [-]
    kind : str
        Of quantity.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    float or array
        In the shown unit. [-]

    Examples
    --------
    Ten kelvin of superheat are 18 °F, never 50:

    >>> round(to_display(10.0, "temperature_difference"), 6)
    18.0
    """
    how = display(kind, system)
    return (value - how.offset) / how.scale


def from_display(number: Number, kind: str, system: str = "us") -> Number:
    """A number in SI.

    Parameters
    ----------
    number : float or array
        In the shown unit. [-]
    kind : str
        Of quantity.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    float or array
        In SI. [-]

    Examples
    --------
    >>> round(from_display(95.0, "temperature"), 2)
    308.15
    """
    how = display(kind, system)
    return number * how.scale + how.offset


def show(value: float, kind: str, system: str = "us", decimals: int | None = None) -> Shown:
    """A quantity as printed.

    Parameters
    ----------
    value : float
        In SI. [-]
    kind : str
        Of quantity.
    system : str
        ``us`` or ``si``.
    decimals : int, optional
        Instead of the usual number of them.

    Returns
    -------
    Shown
        A dash where the value is not finite.

    Examples
    --------
    >>> str(show(-0.5, "house_pressure"))
    '−0.5 Pa'
    """
    how = display(kind, system)
    if not np.isfinite(value):
        return Shown("–", float("nan"), how.unit)
    places = how.decimals if decimals is None else decimals
    number = round(float(to_display(value, kind, system)), places) + 0.0
    return Shown(printed(number, places), number, how.unit)


def printed(number: float, decimals: int = 0) -> str:
    """A number as people read it.

    Parameters
    ----------
    number : float
        In the shown unit. [-]
    decimals : int
        How many.

    Returns
    -------
    str
        With groups of three and a true minus; never a zero with a sign.

    Examples
    --------
    >>> printed(-12.04, 1), printed(-0.01, 1), printed(36000.0)
    ('−12.0', '0.0', '36,000')
    """
    return f"{round(number, decimals) + 0.0:,.{decimals}f}".replace("-", MINUS)
