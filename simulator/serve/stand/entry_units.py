"""Entries of the stand in either system: what is shown, what is allowed, what was meant."""

from typing import Any

from simulator.serve.stand.given import is_number, need_number

# Shown = (entry - offset) / scale; by unit of the entry: unit shown, offset, scale, digits.
IN_SI: dict[str, tuple[str, float, float, int]] = {
    "°F": ("°C", 32.0, 1.8, 1),
    "ft": ("m", 0.0, 1.0 / 0.3048, 0),
}


def shown_unit(unit: str, system: str) -> str:
    """Unit an entry is shown in.

    Parameters
    ----------
    unit : str
        Of the entry.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    str
    """
    return IN_SI[unit][0] if system == "si" and unit in IN_SI else unit


def shown(number: float, unit: str, system: str) -> float:
    """An entry as shown, not rounded.

    Parameters
    ----------
    number : float
        In the entry's unit. [-]
    unit : str
        Of the entry.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    float
        [-]

    Examples
    --------
    >>> shown(95.0, "°F", "si")
    35.0
    """
    if system != "si" or unit not in IN_SI:
        return number
    _, offset, scale, _ = IN_SI[unit]
    return (number - offset) / scale


def meant(number: float, unit: str, system: str) -> float:
    """An entry from what is shown.

    Parameters
    ----------
    number : float
        As shown. [-]
    unit : str
        Of the entry.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    float
        In the entry's unit. [-]
    """
    if system != "si" or unit not in IN_SI:
        return number
    _, offset, scale, _ = IN_SI[unit]
    return offset + scale * number


def limits(low: float, high: float, unit: str, system: str) -> tuple[float, float]:
    """Ends as shown: as round as a scale's, and what is shown is allowed.

    Parameters
    ----------
    low, high : float
        In the entry's unit. [-]
    unit : str
        Of the entry.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    tuple of float
        [-]
    """
    if system != "si" or unit not in IN_SI:
        return low, high
    digits = IN_SI[unit][3]
    return round(shown(low, unit, system), digits), round(shown(high, unit, system), digits)


def need_entry(
    value: Any, name: str, allowed: tuple[float, float, str], system: str = "us"
) -> None:
    """Refuse what is not a number within limits, in the units of who asks.

    Parameters
    ----------
    value : object
        As given, in the entry's unit.
    name : str
        What it is for.
    allowed : tuple
        Lowest, highest, and the entry's unit.
    system : str
        ``us`` or ``si``.

    Raises
    ------
    BadEntry
        Naming the limits.
    """
    low, high, unit = allowed
    if system == "si" and unit in IN_SI and is_number(value):
        # Rounding must not put the printed end out of bounds.
        value = round(shown(float(value), unit, system), IN_SI[unit][3])
    need_number(value, name, limits(low, high, unit, system), shown_unit(unit, system))


def degrees(number: float, system: str) -> str:
    """A temperature in a sentence.

    Parameters
    ----------
    number : float
        In °F.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    str
    """
    if system == "si":
        return f"{round(shown(number, '°F', system), 1):g} °C"
    return f"{number:g} °F"
