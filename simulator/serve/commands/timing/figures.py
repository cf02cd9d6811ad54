"""What a class was measured by, beside what was asked and the plain page of the same run."""

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One line of the table.

    Parameters
    ----------
    name : str
        For programs.
    what : str
        For people.
    value : float
        Measured, in ``unit``.
    unit : str
        ``s``, ``ms``, ``MB``, ``%`` or empty for a count.
    floor : float or None
        The same of plain hello pages in the same run; then ``most`` is a ratio to it.
    most : float or None
        What is asked: the largest value, or ratio to the floor; None where nothing is.
    """

    name: str
    what: str
    value: float
    unit: str = ""
    floor: float | None = None
    most: float | None = None

    @property
    def compared(self) -> float:
        """What the bar is held against."""
        return self.value if self.floor is None else self.value / self.floor

    @property
    def is_met(self) -> bool | None:
        """Whether the bar is met; None where nothing is asked."""
        return None if self.most is None else self.compared <= self.most


def as_data(figures: Sequence[Figure]) -> dict[str, Any]:
    """For programs.

    Parameters
    ----------
    figures : sequence of Figure
        Measured.

    Returns
    -------
    dict
        By name.
    """
    return {
        figure.name: asdict(figure) | {"ratio": figure.compared, "met": figure.is_met}
        for figure in figures
    }


def class_table(figures: Sequence[Figure]) -> str:
    """The figures as a Markdown table.

    Parameters
    ----------
    figures : sequence of Figure
        In the order to print.

    Returns
    -------
    str
        One line each.
    """
    rows = ["| what | measured | hello | ratio | asked | met |", "|---|---:|---:|---:|---|---|"]
    for figure in figures:
        floor = ratio = asked = ""
        if figure.floor is not None:
            floor, ratio = _shown(figure.floor, figure.unit), f"{figure.compared:.2f}"
        if figure.most is not None:
            times = " × hello" if figure.floor is not None else f" {figure.unit}".rstrip()
            asked = f"≤ {figure.most:g}{times}"
        met = {True: "yes", False: "no", None: ""}[figure.is_met]
        shown = _shown(figure.value, figure.unit)
        rows.append(f"| {figure.what} | {shown} | {floor} | {ratio} | {asked} | {met} |")
    return "\n".join(rows)


def _shown(value: float, unit: str) -> str:
    digits = {"s": 2, "MB": 1, "%": 1}.get(unit, 0)
    return f"{value:.{digits}f} {unit}".rstrip()
