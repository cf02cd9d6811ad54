"""Reading of parameter files: every number with its unit and source."""

import tomllib
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from typing import Any


class ParameterFileError(ValueError):
    """A parameter file that cannot be used, in one sentence."""


@dataclass(frozen=True, slots=True)
class Table:
    """One table of a parameter file.

    Parameters
    ----------
    name : str
        For messages.
    rows : dict
        As read.
    """

    name: str
    rows: dict[str, Any]

    def number(self, key: str, unit: str) -> float:
        """One number, its unit checked.

        Parameters
        ----------
        key : str
            Name of the row.
        unit : str
            The unit the row must state.

        Returns
        -------
        float
            In that unit.

        Raises
        ------
        ParameterFileError
            If the row is missing, unsourced, of another unit or not a number.
        """
        row = self.rows.get(key)
        if not isinstance(row, dict) or "source" not in row:
            raise ParameterFileError(f"{self.name}: {key} needs a value, a unit and a source.")
        value = row.get("value")
        if row.get("unit") != unit:
            raise ParameterFileError(
                f"{self.name}: {key} is in {row.get('unit')}, it must be in {unit}."
            )
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise ParameterFileError(f"{self.name}: {key} must be a number, not {value!r}.")
        return float(value)

    def numbers(self, **units: str) -> dict[str, float]:
        """Several numbers at once, by key and unit.

        Parameters
        ----------
        **units : str
            Unit of each key.

        Returns
        -------
        dict
            By key.
        """
        return {key: self.number(key, unit) for key, unit in units.items()}

    def table(self, key: str) -> "Table":
        """A table inside this one.

        Parameters
        ----------
        key : str
            Its name.

        Returns
        -------
        Table

        Raises
        ------
        ParameterFileError
            If there is none.
        """
        inner = self.rows.get(key)
        if not isinstance(inner, dict):
            raise ParameterFileError(f"{self.name}: the table [{key}] is missing.")
        return Table(f"{self.name} [{key}]", inner)


@lru_cache
def read(folder: str, name: str) -> Table:
    """A file shipped with the plant.

    Parameters
    ----------
    folder : str
        ``equipment`` or ``sites``.
    name : str
        Without ending.

    Returns
    -------
    Table
        The whole file.

    Raises
    ------
    ParameterFileError
        If it does not exist or is not TOML; the message lists what there is.
    """
    place = files("simulator.plant").joinpath(folder)
    path = place.joinpath(f"{name}.toml")
    if not name.replace("_", "").isalnum() or not path.is_file():
        known = sorted(
            entry.name.removesuffix(".toml")
            for entry in place.iterdir()
            if entry.name.endswith(".toml")
        )
        raise ParameterFileError(f"{name} is not in {folder}; there are: {', '.join(known)}.")
    try:
        return Table(f"{name}.toml", tomllib.loads(path.read_text(encoding="utf-8")))
    except tomllib.TOMLDecodeError as problem:
        raise ParameterFileError(f"{name}.toml cannot be read: {problem}.") from problem
