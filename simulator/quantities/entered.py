"""From what a person typed to SI."""

import math

from simulator.quantities.shown import MINUS, display, from_display, show


class BadEntry(ValueError):
    """Something typed that cannot be used; its text is one sentence for the person."""


def entered(
    text: str, kind: str, system: str = "us", *, name: str, low: float, high: float
) -> float:
    """A typed number in SI.

    Parameters
    ----------
    text : str
        As typed, in the shown unit.
    kind : str
        Of quantity.
    system : str
        ``us`` or ``si``.
    name : str
        What the number is for, as the sentence should call it.
    low, high : float
        Allowed range in SI. [-]

    Returns
    -------
    float
        In SI. [-]

    Raises
    ------
    BadEntry
        If it is empty, not a number or out of range; says what is allowed.

    Examples
    --------
    >>> entered("9999", "airflow", name="airflow", low=0.0, high=1.0)
    Traceback (most recent call last):
    ...
    simulator.quantities.entered.BadEntry: The airflow must be 0 to 2,119 cfm, not 9999.
    """
    bottom, top = show(low, kind, system), show(high, kind, system)
    plain = text.strip().replace(MINUS, "-").replace(",", "")
    if not plain:
        raise BadEntry(f"The {name} is missing; give a number from {bottom.text} to {top}.")
    try:
        if "_" in plain:
            raise ValueError
        number = float(plain)
    except ValueError:
        raise BadEntry(
            f"The {name} must be a number from {bottom.text} to {top}, not {text.strip()[:40]!r}."
        ) from None
    if not math.isfinite(number):
        raise BadEntry(
            f"The {name} must be a number from {bottom.text} to {top}, not {text.strip()[:40]}."
        )
    value = from_display(number, kind, system)
    # The limits as printed are allowed, though they are rounded.
    how = display(kind, system)
    slack = 0.5 * how.scale * 10.0**-how.decimals
    if not low - slack <= value <= high + slack:
        raise BadEntry(f"The {name} must be {bottom.text} to {top}, not {text.strip()[:40]}.")
    return min(max(value, low), high)
