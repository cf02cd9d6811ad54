"""The signs of every fault over severities and weather, not at the rating point alone."""

from dataclasses import dataclass, replace

import numpy as np

from simulator.faults._catalogue import discover, named
from simulator.plant import steady
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.quantities.values import Array
from tests.faults.signs import AT, healthy, signs
from tests.plant.stand import weather, winter
from tests.truth.fault_signs import FLAT, LEAST_DIFFERENCE, LEAST_SHARE
from tests.truth.known import SIGNS_MISSED
from tests.truth.verdict import Verdict, state_of

COOLING = ((75.0, 63.0), (95.0, 63.0), (95.0, 71.0), (105.0, 67.0))  # outdoors, wet bulb [°F]
HEATING = (55.0, 40.0, 25.0)  # [°F]
DUST = 1e-3  # of the most that a reading is in any weather, below which it is nothing
Row = dict[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """One row of signs over the grid: how many cells showed it, hid it, or showed another."""

    row: Row
    shown: int
    hidden: int
    wrong: tuple[str, ...]

    @property
    def name(self) -> tuple[str, str, str, str]:
        """Fault, mode, device and quantity."""
        return self.row["fault"], self.row["mode"], self.row["metering"], self.row["quantity"]


def skies(mode: str) -> dict[str, Conditions]:
    """Weather to look in, by its name."""
    if AT[mode].mode == "cooling":
        chosen = COOLING
        found = {f"{out:g}/{wet:g} °F": weather(out, wet=wet) for out, wet in chosen}
    else:
        found = {f"{out:g} °F": winter(out) for out in HEATING}
    case = AT[mode]
    return {
        label: replace(around, zone_call=case.zone_call, auxiliary_call=case.auxiliary_call)
        for label, around in found.items()
    }


def amounts(fault: str) -> tuple[float, ...]:
    """Half the middling severity, the middling one, the worst."""
    kind = discover()[fault]
    return 0.5 * kind.typical, kind.typical, kind.high


@dataclass(frozen=True, slots=True)
class _Cell:
    """One amount of one fault in one weather; no fault: the sound unit beside it."""

    mode: str
    metering: str
    fault: str
    amount: float
    sky: str

    @property
    def sound(self) -> "_Cell":
        return replace(self, fault="", amount=0.0)

    @property
    def words(self) -> str:
        return f"{self.amount:g} at {self.sky}"


def seen() -> list[Seen]:
    """Every row that a settled state can show; all cells in one batch."""
    asked = [row for row in signs() if row["mode"] in AT]
    around = {mode: skies(mode) for mode in AT}
    grid = {
        (row["mode"], row["metering"], row["fault"]): [
            _Cell(row["mode"], row["metering"], row["fault"], amount, sky)
            for amount in amounts(row["fault"])
            for sky in around[row["mode"]]
        ]
        for row in asked
    }
    cells = list(dict.fromkeys(c for own in grid.values() for one in own for c in (one, one.sound)))
    point = steady.solve_many(
        [_installed(cell) for cell in cells], [around[cell.mode][cell.sky] for cell in cells]
    )
    place = {cell: number for number, cell in enumerate(cells)}
    return [
        _judged(row, grid[row["mode"], row["metering"], row["fault"]], place, point)
        for row in asked
    ]


def _installed(cell: _Cell) -> Installation:
    built = healthy(cell.metering, cell.mode)
    return named(cell.fault, cell.amount).applied_to(built) if cell.fault else built


def _judged(row: Row, cells: list[_Cell], place: dict[_Cell, int], point: OperatingPoint) -> Seen:
    at = np.array([place[cell] for cell in cells])
    beside = np.array([place[cell.sound] for cell in cells])
    state = np.asarray(point.state)
    values = np.broadcast_to(np.asarray(getattr(point, row["quantity"]), float), state.shape)
    # What a cut-out has stopped shows nothing of a running unit.
    runs = ~np.char.endswith(state[at].astype(str), "_trip")
    verdict = _shows(row, values[beside], values[at])
    return Seen(
        row=row,
        shown=int((runs & (verdict > 0)).sum()),
        hidden=int((runs & (verdict == 0)).sum()),
        wrong=tuple(cells[i].words for i in np.flatnonzero(runs & (verdict < 0))),
    )


def _shows(row: Row, before: Array, after: Array) -> Array:
    """1 where the sign shows, 0 where nothing moves enough, -1 where another shows."""
    change = after - before
    if row["goes"] == "flat":
        return np.where(np.abs(change) < FLAT, 1, -1)
    kelvin = "temperature" in row["quantity"] or row["quantity"] in ("superheat", "subcooling")
    # What is nothing in some weather moves there by the solver's dust alone.
    base = np.maximum(np.abs(before), DUST * np.abs(before).max())
    least = np.full_like(before, LEAST_DIFFERENCE) if kelvin else LEAST_SHARE * base
    moved = change if row["goes"] == "up" else -change
    return np.where(moved > least, 1, np.where(moved < -least, -1, 0))


def checked(one: Seen) -> Verdict:
    """One row of signs over the grid: nowhere the other way."""
    cells = one.shown + one.hidden + len(one.wrong)
    broken = "; ".join(one.wrong)
    if one.name in SIGNS_MISSED:
        broken += f", because {SIGNS_MISSED[one.name]}"
    return Verdict(
        id=one.row["fault"],
        about=f"{one.row['quantity'].replace('_', ' ')}, {one.row['mode']}",
        source=one.row["source"],
        where="valve" if one.row["metering"] == "txv" else "orifice",
        expected=one.row["goes"],
        got=f"{one.shown} of {cells} show it, {one.hidden} too small, {len(one.wrong)} otherwise",
        tolerance="nowhere otherwise, somewhere shown",
        state=state_of(one.shown > 0 and not one.wrong),
        note=broken,
    )


def all_checked() -> list[Verdict]:
    """Every row over the grid."""
    return [checked(one) for one in seen()]
