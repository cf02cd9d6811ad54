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
    # A folder added to the package's path is searched like this one.
    for name in sorted(entry.name for entry in pkgutil.iter_modules(simulator.repairs.__path__)):
        if name.startswith("_"):
            continue
        module = import_module(f"simulator.repairs.{name}")
        own = [
            item
            for item in vars(module).values()
            if isclass(item) and issubclass(item, Repair) and item.__module__ == module.__name__
        ]
        if len(own) != 1:
            raise TypeError(f"repairs/{name}.py must hold exactly one repair")
        found[name] = own[0]
    return found
