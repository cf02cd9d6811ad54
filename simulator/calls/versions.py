"""Versions of a call that are equally hard: a recipe for each, and other names for each trainee.

A version's name is the call's, a dot and a number. The number picks one of the stored recipes in
turn; names and address are its own, so that there are as many versions as trainees. Which recipes
are equally hard is measured by ``benchcall variants`` and stored in ``calls/variants``.
"""

import re
import tomllib
from collections.abc import Mapping
from copy import deepcopy
from dataclasses import dataclass, field
from functools import lru_cache
from importlib.resources import files
from typing import Any

from simulator.calls import invented_names

_NAME = re.compile(r"([A-Za-z0-9_-]{1,40})\.([1-9][0-9]{0,5})")


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """What a version has otherwise than its call, in the units of the call file.

    Parameters
    ----------
    house, unit : str
        Of those shipped.
    day, arrival : mapping
        Numbers by row. [-]
    faults : mapping
        Severity by fault. [-]
    said : mapping
        Words of the parent to the words that stand in their place.
    """

    house: str
    unit: str
    day: Mapping[str, float] = field(default_factory=dict)
    arrival: Mapping[str, float] = field(default_factory=dict)
    faults: Mapping[str, float] = field(default_factory=dict)
    said: Mapping[str, str] = field(default_factory=dict)


def parted(name: str) -> tuple[str, int]:
    """The call that a version is one of, and which.

    Parameters
    ----------
    name : str
        Of a call or of a version.

    Returns
    -------
    tuple
        Name of the call; number of the version, 0 for the call itself.

    Examples
    --------
    >>> parted("mallorn.3"), parted("mallorn")
    (('mallorn', 3), ('mallorn', 0))
    """
    found = _NAME.fullmatch(name)
    return (found[1], int(found[2])) if found else (name, 0)


def named(call: str, number: int) -> str:
    """The name of a version.

    Parameters
    ----------
    call : str
        Of the call.
    number : int
        0 for the call itself. [-]

    Returns
    -------
    str
    """
    return f"{call}.{number}" if number else call


@lru_cache(maxsize=64)
def stored(call: str) -> Mapping[str, Any]:
    """The versions file of a call as read.

    Parameters
    ----------
    call : str
        Its name.

    Returns
    -------
    mapping
        Empty where there is none or it is damaged.
    """
    path = files("simulator.calls") / "variants" / f"{call}.toml"
    try:
        return tomllib.loads(path.read_bytes().decode("utf-8"))
    except (FileNotFoundError, UnicodeDecodeError, tomllib.TOMLDecodeError):
        return {}


def recipes(call: str) -> tuple[Recipe, ...]:
    """The stored recipes of a call.

    Parameters
    ----------
    call : str
        Its name.

    Returns
    -------
    tuple
        Those that were measured to be equally hard; may be empty.
    """
    return tuple(read(row) for row in stored(call).get("version", ()))


def read(row: Mapping[str, Any]) -> Recipe:
    """A recipe as stored.

    Parameters
    ----------
    row : mapping
        Of the versions file.

    Returns
    -------
    Recipe
    """
    return Recipe(
        house=str(row["house"]),
        unit=str(row["unit"]),
        day=dict(row["day"]),
        arrival=dict(row["arrival"]),
        faults=dict(row["faults"]),
        said={str(old): str(new) for old, new in row["said"]},
    )


def version_of(tables: Mapping[str, Any], call: str, number: int) -> dict[str, Any]:
    """The tables of one version.

    Parameters
    ----------
    tables : mapping
        Of the call.
    call : str
        Its name.
    number : int
        Of the version. [-]

    Returns
    -------
    dict
        The call under another name only, where no recipe is stored.
    """
    known = recipes(call)
    made = followed(tables, known[(number - 1) % len(known)]) if known else deepcopy(dict(tables))
    order = made["work_order"]
    order["customer"] = invented_names.customer(order["customer"], call, number)
    order["address"] = invented_names.address(order["address"], call, number)
    return made


def followed(tables: Mapping[str, Any], recipe: Recipe) -> dict[str, Any]:
    """A call's tables by a recipe, under the call's own names.

    Parameters
    ----------
    tables : mapping
        Of the call, left as they are.
    recipe : Recipe
        What to change.

    Returns
    -------
    dict
    """
    made = deepcopy(dict(tables))
    made["site"] |= {"house": recipe.house, "unit": recipe.unit}
    for table, rows in (("day", recipe.day), ("arrival", recipe.arrival)):
        for row, value in rows.items():
            made[table][row] = {**made[table][row], "value": value}
    made["sealed"]["faults"] = made["sealed"]["faults"] | dict(recipe.faults)
    for table in ("work_order", "answers"):
        made[table] = _said(made[table], recipe.said)
    made["sealed"]["story"] = _said(made["sealed"]["story"], recipe.said)
    return made


def _said(value: Any, instead: Mapping[str, str]) -> Any:
    """Texts with other words; all at once, so that no word is changed twice."""
    if isinstance(value, dict):
        return {key: _said(inner, instead) for key, inner in value.items()}
    if isinstance(value, list):
        return [_said(inner, instead) for inner in value]
    if not isinstance(value, str) or not instead:
        return value
    longest = sorted(instead, key=len, reverse=True)
    return re.sub("|".join(map(re.escape, longest)), lambda found: instead[found[0]], value)
