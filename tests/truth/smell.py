"""What a smell test is: a number of the trade's list, what fails, and what was found."""

import re
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from simulator.quantities.values import Array
from tests.truth.field import Field
from tests.truth.verdict import State, Verdict, state_of

# What names one cell among those of its unit, device and fault.
CELL = re.compile(r"( at \d+% of its range)?, [\d.]+ °F out, [\d.]+ °F WB$")
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


def grouped(broken: tuple[str, ...]) -> tuple[str, ...]:
    """Cells by unit, device and fault with their number; anything else as it stands."""
    counted = Counter(CELL.sub("", name) for name in broken)
    return tuple(name if name in broken else f"{name}: {n}" for name, n in counted.items())


def smelt(smell: Smell, field: Field) -> Verdict:
    """One row worked out; what broke is named by unit, device and fault, none left out."""
    found = smell.found(field)
    count = f"{len(found.broken):,} of {found.looked:,} broken" if found.broken else "none broken"
    return Verdict(
        id=f"{smell.number:02d}",
        about=smell.fails_if,
        source=SOURCE,
        where=f"{found.looked:,} looked at",
        expected=smell.bar,
        got=f"{count}; {found.figure}" if found.figure else count,
        tolerance="as asked",
        state=found.state,
        note="; ".join(grouped(found.broken)),
    )
