"""Reading of parameter files: every number with its unit and source."""

import math
import tomllib
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from pathlib import Path
from typing import Any

LARGEST_FILE = 1_000_000  # bytes; a parameter file has a few thousand
LONGEST_WORD = 80


class ParameterFileError(ValueError):
    """A parameter file that cannot be used, in one sentence."""


def _is_number(value: Any) -> bool:
    if isinstance(value, bool) or not isinstance(value, int | float):
        return False
    # A whole number beyond every float would not even compare with infinity.
    return abs(value) < 1e30 if isinstance(value, int) else math.isfinite(value)


def short(value: Any) -> str:
    """What stands there, in few words.

    Parameters
    ----------
    value : object
        As read.

    Returns
    -------
    str
        Printable, at most forty characters.
    """
    if value is None or value == "":
        return "nothing"
    if isinstance(value, int) and abs(value) > 10**30:
        return "a number of more than thirty digits"
    text = str(value) if isinstance(value, str) else repr(value)
    return "".join(sign for sign in text if sign.isprintable())[:40]


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
        self._need_unit(key, row, unit)
        if value is None or not _is_number(value):
            raise ParameterFileError(f"{self.name}: {key} must be a number, not {short(value)}.")
        return float(value)

    def column(self, key: str, unit: str) -> tuple[float, ...]:
        """A row of several numbers, its unit checked.

        Parameters
        ----------
        key : str
            Name of the row.
        unit : str
            The unit the row must state.

        Returns
        -------
        tuple
            In that unit. [-]

        Raises
        ------
        ParameterFileError
            As ``number``.
        """
        row = self.rows.get(key)
        if not isinstance(row, dict) or "source" not in row:
            raise ParameterFileError(f"{self.name}: {key} needs a value, a unit and a source.")
        self._need_unit(key, row, unit)
        return self._numbers(key, row.get("value"))

    def bare_column(self, key: str) -> tuple[float, ...]:
        """Several plain numbers in square brackets.

        Parameters
        ----------
        key : str
            Name of the row.

        Returns
        -------
        tuple
            [-]

        Raises
        ------
        ParameterFileError
            If the row is missing or anything else.
        """
        return self._numbers(key, self.rows.get(key))

    def need_no_negative(self) -> None:
        """Look through this table and those inside it for numbers below zero.

        Raises
        ------
        ParameterFileError
            For the first one.
        """
        for key, row in self.rows.items():
            if not isinstance(row, dict):
                continue
            value = row.get("value", 0.0)
            if isinstance(value, int | float) and value < 0.0:
                raise ParameterFileError(f"{self.name}: {key} must not be negative.")
            if "value" not in row:
                self.table(key).need_no_negative()

    def _numbers(self, key: str, values: Any) -> tuple[float, ...]:
        if not isinstance(values, list) or not values or not all(map(_is_number, values)):
            raise ParameterFileError(
                f"{self.name}: {key} must be numbers in square brackets, not {short(values)}."
            )
        return tuple(float(value) for value in values)

    def _need_unit(self, key: str, row: dict[str, Any], unit: str) -> None:
        if row.get("unit") != unit:
            raise ParameterFileError(
                f"{self.name}: {key} is in {short(row.get('unit'))}, it must be in {unit}."
            )

    def word(self, key: str) -> str:
        """A word or a name.

        Parameters
        ----------
        key : str
            Name of the row.

        Returns
        -------
        str
            As written.

        Raises
        ------
        ParameterFileError
            If the row is missing, empty, long or anything else.
        """
        value = self.rows.get(key)
        if not isinstance(value, str) or not value.strip() or len(value) > LONGEST_WORD:
            raise ParameterFileError(
                f"{self.name}: {key} must be a word or a short name, not {short(value)}."
            )
        if not value.isprintable():
            raise ParameterFileError(f"{self.name}: {key} holds signs that cannot be printed.")
        return value

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
    """A file shipped with the plant, or one's own.

    Parameters
    ----------
    folder : str
        ``equipment`` or ``sites``.
    name : str
        Without ending; or the path of a file of one's own, which ends in ``.toml``.

    Returns
    -------
    Table
        The whole file.

    Raises
    ------
    ParameterFileError
        If it does not exist or is not TOML; the message lists what there is.
    """
    if name.endswith(".toml"):
        return _parsed(Path(name).name, _own_bytes(Path(name)))
    place = files("simulator.plant").joinpath(folder)
    path = place.joinpath(f"{name}.toml")
    if not name.replace("_", "").isalnum() or not path.is_file():
        known = sorted(
            entry.name.removesuffix(".toml")
            for entry in place.iterdir()
            if entry.name.endswith(".toml")
        )
        raise ParameterFileError(f"{name} is not in {folder}; there are: {', '.join(known)}.")
    return _parsed(f"{name}.toml", path.read_bytes())


def _own_bytes(path: Path) -> bytes:
    if not path.is_file():
        raise ParameterFileError(f"{path} cannot be found.")
    try:
        if path.stat().st_size > LARGEST_FILE:
            raise ParameterFileError(f"{path.name} is larger than any parameter file.")
        return path.read_bytes()
    except OSError as problem:
        reason = (problem.strerror or "it is out of reach").lower()
        raise ParameterFileError(f"{path.name} cannot be read: {reason}.") from problem


def _parsed(name: str, content: bytes) -> Table:
    try:
        return Table(name, tomllib.loads(content.decode("utf-8")))
    except UnicodeDecodeError as problem:
        raise ParameterFileError(f"{name} is not text in UTF-8.") from problem
    except tomllib.TOMLDecodeError as problem:
        reason = " ".join(str(problem).split()).rstrip(".")
        raise ParameterFileError(f"{name} cannot be read: {_short_reason(reason)}.") from problem
    except (RecursionError, ValueError) as problem:
        raise ParameterFileError(
            f"{name} is nested too deeply or holds a number of too many digits."
        ) from problem


def _short_reason(reason: str) -> str:
    return "".join(sign for sign in reason if sign.isprintable())[:160]
