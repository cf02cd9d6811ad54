"""What came from Python code: of the right kind, or one sentence on what is allowed."""

from collections.abc import Iterable, Mapping, Sequence
from difflib import get_close_matches
from numbers import Real
from typing import Any

from simulator.faults import _catalogue as faults
from simulator.quantities.entered import BadEntry

LONGEST = 40  # of what was given, as far as a sentence repeats it


def told(value: object) -> str:
    """What was given, as a sentence may repeat it.

    Parameters
    ----------
    value : object
        Anything at all.

    Returns
    -------
    str
        Short and on one line; of a container its kind alone.
    """
    if isinstance(value, str):
        return repr(str(value)[:LONGEST])
    if value is None or isinstance(value, bool):
        return str(value)
    if isinstance(value, Real):
        try:
            return f"{float(value):g}"
        except OverflowError:
            return "a number beyond all measure"
    return f"a {type(value).__name__}"


def listed(words: Sequence[str]) -> str:
    """Words with *or* before the last.

    Parameters
    ----------
    words : sequence of str
        At least one.

    Returns
    -------
    str

    Examples
    --------
    >>> listed(("attic", "garage", "basement"))
    'attic, garage or basement'
    """
    return " or ".join(part for part in (", ".join(words[:-1]), words[-1]) if part)


def need_word(value: object, name: str, allowed: Sequence[str]) -> None:
    """Refuse what is not one of the words.

    Parameters
    ----------
    value : object
        As given.
    name : str
        What it is for, as the sentence should call it.
    allowed : sequence of str
        The words.

    Raises
    ------
    BadEntry
        Naming them.
    """
    if not isinstance(value, str) or value not in allowed:
        raise BadEntry(f"{_begun(name)} must be {listed(allowed)}, not {told(value)}.")


def is_number(value: object) -> bool:
    """Whether it is a finite real number; true and false are none.

    Parameters
    ----------
    value : object
        As given.

    Returns
    -------
    bool
    """
    if isinstance(value, bool) or not isinstance(value, Real):
        return False
    number: Any = value  # compared as it is: a whole number may be too large to convert
    return bool(-1e300 < number < 1e300)


def need_number(value: Any, name: str, limits: tuple[float, float], unit: str) -> None:
    """Refuse what is not a number within limits.

    Parameters
    ----------
    value : object
        As given.
    name : str
        What it is for, as the sentence should call it.
    limits : tuple of float
        Lowest and highest, both allowed. [-]
    unit : str
        Of the limits, as printed.

    Raises
    ------
    BadEntry
        Naming the limits.
    """
    low, high = limits
    allowed = f"between {low:g} and {high:g} {unit}".rstrip()
    if not isinstance(value, Real) or isinstance(value, bool):
        raise BadEntry(f"{_begun(name)} must be a number {allowed}, not {told(value)}.")
    number: Any = value
    if not is_number(value) or not low <= number <= high:
        raise BadEntry(f"{_begun(name)} must lie {allowed}, not {told(value)}.")


def need_faults(asked: object, most: int) -> None:
    """Refuse what are not severities by fault name.

    Parameters
    ----------
    asked : object
        As given.
    most : int
        How many can be combined. [-]

    Raises
    ------
    BadEntry
        Naming what is allowed.
    """
    if not isinstance(asked, Mapping):
        raise BadEntry(f"The faults must be a dict of severity by name, not {told(asked)}.")
    if len(asked) > most:
        raise BadEntry(f"At most {most} faults can be combined.")
    for name, amount in asked.items():
        if not isinstance(name, str) or name not in faults.discover():
            raise BadEntry(_unknown_fault(name))
        if not is_number(amount):
            raise BadEntry(f"The fault {name} needs a number as severity, not {told(amount)}.")
        try:
            faults.named(name, amount)
        except faults.UnknownFault as problem:
            raise BadEntry(str(problem)) from problem


def need_known(asked: Iterable[str], known: Sequence[str]) -> None:
    """Refuse a keyword that there is not.

    Parameters
    ----------
    asked : iterable of str
        The keywords.
    known : sequence of str
        Those there are.

    Raises
    ------
    BadEntry
        Naming the first unknown one and all that there are.
    """
    for word in asked:
        if word not in known:
            raise BadEntry(
                f"There is no setting called {told(word)}; there are: {', '.join(known)}."
            )


def _unknown_fault(name: object) -> str:
    """There are too many to repeat; a slip of the finger has one that is meant."""
    near = get_close_matches(name, faults.discover(), 1) if isinstance(name, str) else []
    told_where = f"benchcall readings --list-faults lists all {len(faults.discover())}"
    meant = f" (did you mean {near[0]}?)" if near else ""
    return f"There is no fault {told(name)}{meant}; {told_where}."


def _begun(name: str) -> str:
    return name[:1].upper() + name[1:]
