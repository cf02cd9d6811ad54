"""A measured time, and the table of them that stands in the README."""

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from statistics import median


@dataclass(frozen=True, slots=True, kw_only=True)
class Timing:
    """One line of the table.

    Parameters
    ----------
    what : str
        What was timed.
    seconds : tuple of float
        Each time it was done. [s]
    against : float or None
        The time that it is compared with. [s]
    bar : str
        What is asked of it, in words; empty when nothing is.
    """

    what: str
    seconds: tuple[float, ...]
    against: float | None = None
    bar: str = ""

    @property
    def typical(self) -> float:
        """The median, in seconds."""
        return median(self.seconds)


def timed(action: Callable[[], object], times: int) -> tuple[float, ...]:
    """Do something several times with a watch in hand.

    Parameters
    ----------
    action : callable
        What to do; done once beforehand without the watch.
    times : int
        How often. [-]

    Returns
    -------
    tuple of float
        Each duration. [s]
    """
    action()
    taken = []
    for _ in range(times):
        begun = time.perf_counter()
        action()
        taken.append(time.perf_counter() - begun)
    return tuple(taken)


def table(timings: Sequence[Timing]) -> str:
    """The times as a Markdown table.

    Parameters
    ----------
    timings : sequence of Timing
        In the order to print.

    Returns
    -------
    str
        One line each, medians first.
    """
    rows = ["| what | median | slowest | asked |", "|---|---:|---:|---|"]
    for timing in timings:
        typical = _shown(timing.typical)
        if timing.against is not None:
            typical += f" ({timing.typical / timing.against:.2f} ×)"
        slowest = _shown(max(timing.seconds))
        rows.append(f"| {timing.what} | {typical} | {slowest} | {timing.bar} |")
    return "\n".join(rows)


def _shown(seconds: float) -> str:
    return f"{seconds:.2f} s" if seconds >= 1.0 else f"{seconds * 1e3:.0f} ms"
