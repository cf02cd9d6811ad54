"""All repairs, found by looking into this folder."""

import pkgutil
from functools import lru_cache
from importlib import import_module
from inspect import isclass

import simulator.repairs
from simulator.repairs._base import Repair


@lru_cache
def discover() -> dict[str, type[Repair]]:
    """Every repair by its file's name.

    Returns
    -------
    dict
        In alphabetical order.

    Raises
    ------
    TypeError
        If a file does not hold exactly one repair.
    """
    found: dict[str, type[Repair]] = {}
    for entry in pkgutil.iter_modules(simulator.repairs.__path__):
        if entry.name.startswith("_"):
            continue
        module = import_module(f"simulator.repairs.{entry.name}")
        own = [
            item
            for item in vars(module).values()
            if isclass(item) and issubclass(item, Repair) and item.__module__ == module.__name__
        ]
        if len(own) != 1:
            raise TypeError(f"repairs/{entry.name}.py must hold exactly one repair")
        found[entry.name] = own[0]
    return found
