"""All faults, found by looking into this folder."""

import pkgutil
from functools import lru_cache
from importlib import import_module
from inspect import isclass

import simulator.faults
from simulator.faults._base import Fault


class UnknownFault(ValueError):
    """A fault name or severity that cannot be used, in one sentence."""


@lru_cache
def discover() -> dict[str, type[Fault]]:
    """Every fault by its file's name.

    Returns
    -------
    dict
        In alphabetical order.

    Raises
    ------
    TypeError
        If a file does not hold exactly one fault.
    """
    found: dict[str, type[Fault]] = {}
    for entry in pkgutil.iter_modules(simulator.faults.__path__):
        if entry.name.startswith("_"):
            continue
        module = import_module(f"simulator.faults.{entry.name}")
        own = [
            item
            for item in vars(module).values()
            if isclass(item) and issubclass(item, Fault) and item.__module__ == module.__name__
        ]
        if len(own) != 1:
            raise TypeError(f"faults/{entry.name}.py must hold exactly one fault")
        found[entry.name] = own[0]
    return found


def named(name: str, amount: float) -> Fault:
    """A fault from its name and a severity in its own unit.

    Parameters
    ----------
    name : str
        File name.
    amount : float
        In the fault's unit. [-]

    Returns
    -------
    Fault
        With severity in SI.

    Raises
    ------
    UnknownFault
        Naming what is allowed.
    """
    kinds = discover()
    if name not in kinds:
        raise UnknownFault(f"There is no fault {name}; there are: {', '.join(kinds)}.")
    kind = kinds[name]
    if not kind.low <= amount <= kind.high:
        unit = "" if kind.unit == "-" else f" {kind.unit}"
        raise UnknownFault(
            f"{name} takes {kind.low:g} to {kind.high:g}{unit} ({kind.measure}), not {amount:g}."
        )
    return kind(amount * kind.unit_in_si)
