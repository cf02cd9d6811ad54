"""What a smell test is: a number of the trade's list, what fails, and what was found."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from simulator.quantities.values import Array
from tests.truth.field import Field
from tests.truth.verdict import State, Verdict, state_of

SOURCE = "signs and sizes that instructors look for; common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True)
class Smelt:
    """What one test found: how many places it looked at, where it broke, a figure."""

    looked: int
    broken: tuple[str, ...] = ()
    figure: str = ""
    is_absent: bool = False

    @property
    def state(self) -> State:
        """Nothing looked at is no test passed."""
        if self.is_absent:
            return "absent"
        return state_of(self.looked > 0 and not self.broken)


@dataclass(frozen=True, slots=True, kw_only=True)
class Smell:
    """One row: its number, what must not be, how it is judged."""

    number: int
    fails_if: str
    bar: str
    found: Callable[[Field], Smelt]


def cells(field: Field, among: Array, bad: Array, figure: str = "") -> Smelt:
    """Judge cells of the grid: those that run and are meant, and which of them are wrong."""
    meant = np.asarray(among) & field.running
    wrong = np.flatnonzero(meant & np.asarray(bad))
    return Smelt(
        looked=int(meant.sum()), broken=tuple(field.named(int(i)) for i in wrong), figure=figure
    )


def figures(**each: tuple[float, float, float]) -> Smelt:
    """Judge named figures, each with its lowest and its highest allowed value."""
    return Smelt(
        looked=len(each),
        broken=tuple(
            f"{name.replace('_', ' ')} {value:.3g}, asked {low:g} to {high:g}"
            for name, (value, low, high) in each.items()
            if not low <= value <= high
        ),
        figure=", ".join(
            f"{name.replace('_', ' ')} {value:.3g}" for name, (value, _, _) in each.items()
        ),
    )


def smelt(smell: Smell, field: Field) -> Verdict:
    """One row worked out."""
    found = smell.found(field)
    more = f" and {len(found.broken) - 2} more" if len(found.broken) > 2 else ""
    return Verdict(
        id=f"{smell.number:02d}",
        about=smell.fails_if,
        source=SOURCE,
        where=f"{found.looked} looked at",
        expected=smell.bar,
        got=found.figure or (f"{len(found.broken)} broken" if found.broken else "none broken"),
        tolerance="as asked",
        state=found.state,
        note="; ".join(found.broken[:2]) + more,
    )
