"""The whole list of causes, the same for every call and in one fixed order."""

from functools import lru_cache
from typing import get_args

from simulator.calls.choice import NO_FAULT, Choice
from simulator.faults._base import Family
from simulator.faults._catalogue import discover

FAMILIES: tuple[str, ...] = get_args(Family)


@lru_cache
def causes() -> tuple[Choice, ...]:
    """Everything a finding may name.

    Returns
    -------
    tuple
        By family in causal order, then by name; no fault last.

    Examples
    --------
    >>> causes()[-1].code
    'no_fault'
    """
    found = [
        Choice(code=code, name=fault.cause or fault.title, family=fault.family)
        for code, fault in discover().items()
    ]
    found.sort(key=lambda choice: (FAMILIES.index(choice.family), choice.name))
    return (*found, Choice(code=NO_FAULT, name="No fault found", family="No fault"))


@lru_cache
def codes() -> frozenset[str]:
    """Codes of all causes.

    Returns
    -------
    frozenset
    """
    return frozenset(choice.code for choice in causes())


def name_of(code: str) -> str:
    """A cause as people say it.

    Parameters
    ----------
    code : str
        Of the list.

    Returns
    -------
    str
    """
    return next(choice.name for choice in causes() if choice.code == code)
