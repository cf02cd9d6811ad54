"""A chart of lines and marks as plain data: axes, ticks, labels, and the table beside it."""

from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Any

import numpy as np

from simulator.quantities.shown import printed, show, to_display
from simulator.quantities.values import Array

MOST_TICKS = 5


def in_units(values: Any, kind: str, system: str) -> Array:
    """Numbers as the chart has them.

    Parameters
    ----------
    values : array
        In SI.
    kind : str
        Of quantity.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    array
        [-]
    """
    shown = to_display(np.asarray(values, dtype=float), kind, system)
    return np.asarray(shown, dtype=np.float64)


def ticks_of(low: float, high: float, most: int = MOST_TICKS) -> list[float]:
    """Few round numbers inside a range.

    Parameters
    ----------
    low, high : float
        Ends. [-]
    most : int
        Roughly how many.

    Returns
    -------
    list of float
        [-]

    Examples
    --------
    >>> ticks_of(41.0, 93.0)
    [60.0, 80.0]
    >>> ticks_of(0.0, 1.2)
    [0.0, 0.5, 1.0]
    """
    raw = max(high - low, 1e-9) / most
    ten = 10.0 ** np.floor(np.log10(raw))
    step = next(n * ten for n in (1.0, 2.0, 5.0, 10.0) if n * ten >= raw * 0.999)
    first = np.ceil(low / step - 1e-9)
    last = np.floor(high / step + 1e-9)
    return [float(round(n * step, 10)) + 0.0 for n in np.arange(first, last + 1)]


def axis(
    label: str,
    unit: str,
    ends: tuple[float, float],
    *,
    ticks: Sequence[float] | None = None,
    log: bool = False,
) -> dict[str, Any]:
    """One axis.

    Parameters
    ----------
    label, unit : str
        What it counts, and in what.
    ends : tuple of float
        Lowest and highest. [-]
    ticks : sequence of float, optional
        Else few round ones. [-]
    log : bool
        Whether it is logarithmic.

    Returns
    -------
    dict
        Plain data.
    """
    low, high = ends
    chosen = ticks_of(low, high) if ticks is None else [t for t in ticks if low <= t <= high]
    apart = min((b - a for a, b in pairwise(chosen)), default=1.0)
    decimals = 0 if log or apart >= 1.0 else (1 if apart >= 0.1 else 2)
    return {
        "label": f"{label}, {unit}" if unit else label,
        "low": float(low),
        "high": float(high),
        "log": log,
        "ticks": [[float(tick), printed(tick, decimals)] for tick in chosen],
    }


def points(x: Iterable[float], y: Iterable[float]) -> list[list[float]]:
    """Pairs, rounded to what a screen can show; where the plant stands still, none.

    Parameters
    ----------
    x, y : iterable of float
        In the chart's units. [-]

    Returns
    -------
    list
        Pairs.
    """
    return [
        [float(f"{a:.6g}"), float(f"{b:.6g}")]
        for a, b in zip(x, y, strict=True)
        if np.isfinite(a) and np.isfinite(b)
    ]


def line(role: str, pairs: list[list[float]], label: str = "", **more: Any) -> dict[str, Any]:
    """One line.

    Parameters
    ----------
    role : str
        ``guide``, ``healthy`` or ``now``.
    pairs : list
        As ``points``.
    label : str
        Printed at its end.
    **more
        ``closed``, ``thin`` or ``at`` (the point its label stands at).

    Returns
    -------
    dict
        Plain data.
    """
    return {"role": role, "points": pairs, "label": label, **more}


def mark(role: str, at: Sequence[float], text: str = "", side: str = "above") -> dict[str, Any]:
    """One point with what is printed at it.

    Parameters
    ----------
    role : str
        ``guide``, ``healthy`` or ``now``.
    at : sequence of float
        Where. [-]
    text : str
        Printed.
    side : str
        Preferred: ``above``, ``below``, ``left`` or ``right``.

    Returns
    -------
    dict
        Plain data.
    """
    return {"role": role, "at": [float(v) for v in at], "text": text, "side": side}


def table(caption: str, columns: Sequence[str], rows: Sequence[Sequence[str]]) -> dict[str, Any]:
    """The same for those who read rather than look.

    Parameters
    ----------
    caption : str
        What it is.
    columns : sequence of str
        Heads.
    rows : sequence
        Text; the first of each is its head.

    Returns
    -------
    dict
        Plain data.
    """
    return {"caption": caption, "columns": list(columns), "rows": [list(row) for row in rows]}


def told(value: float, kind: str, system: str, decimals: int | None = None) -> str:
    """A value with its unit.

    Parameters
    ----------
    value : float
        In SI.
    kind : str
        Of quantity.
    system : str
        ``us`` or ``si``.
    decimals : int, optional
        Else those of the kind.

    Returns
    -------
    str
    """
    return str(show(value, kind, system, decimals=decimals))
