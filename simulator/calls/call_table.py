"""Tables of a call file, read with plain complaints."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from simulator.quantities.shown import from_display

# Units a call file may use, and how each becomes SI.
_UNITS: Mapping[str, tuple[str, str]] = {
    "°F": ("temperature", "us"),
    "gr/lb": ("humidity_ratio", "us"),
}
_PLAIN = ("W/m²", "V", "h", "min", "-")
LARGEST = 1e9  # nothing in a call comes near it, in any unit [-]


class CallFileError(ValueError):
    """A call file that cannot be used, in one sentence."""


@dataclass(frozen=True, slots=True)
class Rows:
    """One table of a call file, read with plain complaints.

    Parameters
    ----------
    call : str
        For messages.
    table : str
        Its name.
    rows : mapping
        As read.
    """

    call: str
    table: str
    rows: Mapping[str, Any]

    def text(self, key: str) -> str:
        """A sentence or a word.

        Parameters
        ----------
        key : str
            Name of the row.

        Returns
        -------
        str

        Raises
        ------
        CallFileError
            If it is missing, empty or no text.
        """
        value = self.rows.get(key)
        if not isinstance(value, str) or not value.strip():
            raise CallFileError(f"Call {self.call}: {self.table} needs a text called {key}.")
        return " ".join(value.split())

    def lines(self, key: str) -> tuple[str, ...]:
        """A list of sentences.

        Parameters
        ----------
        key : str
            Name of the row.

        Returns
        -------
        tuple

        Raises
        ------
        CallFileError
            If it is not a list of texts.
        """
        value = self.rows.get(key)
        if not isinstance(value, list) or not all(isinstance(line, str) for line in value):
            raise CallFileError(f"Call {self.call}: {self.table} needs a list called {key}.")
        return tuple(value)

    def number(self, key: str) -> float:
        """A number with its unit, in SI.

        Parameters
        ----------
        key : str
            Name of the row.

        Returns
        -------
        float
            In SI; hours and minutes stay as they are. [-]

        Raises
        ------
        CallFileError
            If value or unit cannot be used.
        """
        row = self.rows.get(key)
        given = row.get("value") if isinstance(row, dict) else None
        unit = row.get("unit") if isinstance(row, dict) else None
        is_number = isinstance(given, int | float) and not isinstance(given, bool)
        is_small = is_number and given is not None and abs(given) < LARGEST
        value = float(given or 0) if is_small else float("nan")
        if not -LARGEST < value < LARGEST:  # neither does what is no number
            raise CallFileError(
                f"Call {self.call}: {self.table} needs {key} with a value and a unit."
            )
        if unit in _PLAIN:
            return value
        if not isinstance(unit, str) or unit not in _UNITS:
            raise CallFileError(f"Call {self.call}: {key} has no usable unit: {unit}.")
        kind, system = _UNITS[unit]
        return float(from_display(value, kind, system))


def table(call: str, tables: Mapping[str, Any], name: str) -> Rows:
    """One table of a call file.

    Parameters
    ----------
    call : str
        For messages.
    tables : mapping
        The file as read.
    name : str
        Of the table.

    Returns
    -------
    Rows

    Raises
    ------
    CallFileError
        If it is missing.
    """
    rows = tables.get(name)
    if not isinstance(rows, dict):
        raise CallFileError(f"Call {call}: the part [{name}] is missing.")
    return Rows(call, name, rows)
