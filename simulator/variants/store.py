"""The stored versions of a call, with what they were measured at."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict
from importlib.resources import files
from pathlib import Path
from typing import Any

from simulator.calls.versions import Recipe, stored
from simulator.variants.difficulty import Difficulty
from simulator.variants.equality import Measured

HEAD = """\
# Versions of {call} that are as hard as the call itself: found, measured and written by
# `benchcall variants {call} --keep`. Never edited by hand.
"""


def file_of(call: str) -> Path:
    """Where the versions of a call are kept.

    Parameters
    ----------
    call : str
        Its name.

    Returns
    -------
    Path
    """
    return Path(str(files("simulator.calls"))) / "variants" / f"{call}.toml"


def keep(call: str, plays: int, own: Measured, found: Sequence[tuple[Recipe, Measured]]) -> Path:
    """Write the versions of a call in the place of those that were there.

    Parameters
    ----------
    call : str
        Its name.
    plays : int
        Of each trainee, by which all were measured. [-]
    own : Measured
        The call itself.
    found : sequence
        Recipes and what they were measured at.

    Returns
    -------
    Path
        Of the file.
    """
    parts = [HEAD.format(call=call), f"plays = {plays}\n", _table("parent", own)]
    for recipe, measured in found:
        said = [[old, new] for old, new in recipe.said.items()]
        parts.append(
            "[[version]]\n"
            f"house = {_value(recipe.house)}\nunit = {_value(recipe.unit)}\n"
            f"said = {_value(said)}\n"
            + "".join(
                f"{name} = {_inline(rows)}\n"
                for name, rows in (
                    ("day", recipe.day),
                    ("arrival", recipe.arrival),
                    ("faults", recipe.faults),
                )
            )
            + _rows(measured)
        )
    path = file_of(call)
    path.parent.mkdir(exist_ok=True)
    path.write_text("\n".join(parts), encoding="utf-8")
    stored.cache_clear()
    return path


def kept_parent(call: str) -> Measured | None:
    """What the call was measured at when its versions were kept.

    Parameters
    ----------
    call : str
        Its name.

    Returns
    -------
    Measured or None
        None without kept versions.
    """
    row = stored(call).get("parent")
    return None if row is None else _read(row)


def kept(call: str) -> list[Measured]:
    """What the kept versions were measured at.

    Parameters
    ----------
    call : str
        Its name.

    Returns
    -------
    list
        In their order.
    """
    return [_read(row) for row in stored(call).get("version", ())]


def kept_plays(call: str) -> int:
    """By how many plays of each trainee.

    Parameters
    ----------
    call : str
        Its name.

    Returns
    -------
    int
        [-]
    """
    return int(stored(call).get("plays", 0))


def _read(row: Mapping[str, Any]) -> Measured:
    return Measured(difficulty=Difficulty(**row["difficulty"]), scores=dict(row["scores"]))


def _table(name: str, measured: Measured) -> str:
    return f"[{name}]\n{_rows(measured)}"


def _rows(measured: Measured) -> str:
    parts = (("difficulty", asdict(measured.difficulty)), ("scores", measured.scores))
    return "".join(f"{name} = {_inline(rows)}\n" for name, rows in parts)


def _inline(rows: Mapping[str, Any]) -> str:
    inside = ", ".join(f"{key} = {_value(value)}" for key, value in rows.items())
    return f"{{ {inside} }}" if inside else "{}"


def _value(value: Any) -> str:
    """What TOML and JSON write alike; numbers as far as they were measured."""
    if isinstance(value, float):
        return repr(round(float(value), 4))
    return json.dumps(value, ensure_ascii=False)
