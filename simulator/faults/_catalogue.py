"""All faults, found by looking into this folder."""

import pkgutil
from functools import lru_cache
from importlib import import_module

import simulator.faults
from simulator.faults._base import Fault, FaultKind


class UnknownFault(ValueError):
    """A fault name or severity that cannot be used, in one sentence."""


@lru_cache
def discover() -> dict[str, FaultKind]:
    """Every fault by its file's name.

    Returns
    -------
    dict
        In alphabetical order.

    Raises
    ------
    TypeError
        If a file does not hold its fault as ``FAULT``, under the file's own name.
    """
    found: dict[str, FaultKind] = {}
    # A folder added to the package's path is searched like this one.
    for name in sorted(entry.name for entry in pkgutil.iter_modules(simulator.faults.__path__)):
        if name.startswith("_"):
            continue
        fault = getattr(import_module(f"simulator.faults.{name}"), "FAULT", None)
        if not isinstance(fault, FaultKind) or fault.id != name:
            raise TypeError(f"faults/{name}.py must hold FAULT, a FaultKind with id {name}")
        found[name] = fault
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
    return Fault(kind, amount * kind.unit_in_si)
