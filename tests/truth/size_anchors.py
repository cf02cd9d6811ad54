"""How large each fault shows, row by row against anchors of the trade."""

import csv
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import NamedTuple

import numpy as np

from simulator.plant.operating_point import OperatingPoint
from simulator.properties import refrigerant
from tests.truth.benches import Bench, Faults
from tests.truth.published_circuit import PSI, split
from tests.truth.verdict import State, Verdict, state_of

TABLE = Path(__file__).parents[1] / "data" / "size_anchors.csv"
WITHIN = 0.40  # of the anchor's change
Row = Mapping[str, str]


def _by_gauge(point: OperatingPoint) -> float:
    """Condensing as a gauge has it, which counts air in the circuit as refrigerant. [°R]"""
    fluid = refrigerant.load("R-410A")
    return float(fluid.bubble_temperature(np.array([point.liquid_pressure]))[0]) * 1.8


class Measure(NamedTuple):
    """A reading in the technician's unit; the smallest change of it that counts as one."""

    of: Callable[[OperatingPoint], float]
    least: float
    unit: str
    is_share: bool = False


# The smallest changes are those of the trade's first step of three.
MEASURES: dict[str, Measure] = {
    "evaporating temperature": Measure(
        lambda point: float(point.evaporating_temperature) * 1.8, 2.0, "°F"
    ),
    "condensing over ambient": Measure(
        lambda point: _by_gauge(point) - float(point.outdoor_temperature) * 1.8, 3.0, "°F"
    ),
    "condensing over return air": Measure(
        lambda point: _by_gauge(point) - float(point.air_handler_return_temperature) * 1.8,
        3.0,
        "°F",
    ),
    "superheat": Measure(lambda point: float(point.superheat) * 1.8, 4.0, "°F"),
    "subcooling": Measure(lambda point: float(point.subcooling) * 1.8, 3.0, "°F"),
    "split": Measure(split, 1.5, "°F"),
    "head": Measure(lambda point: float(point.liquid_pressure) / PSI, 10.0, "psi"),
    "outdoor current": Measure(lambda point: float(point.outdoor_current), 4.0, "%", True),
    "capacity": Measure(lambda point: float(point.gross_capacity), 5.0, "%", True),
}


def rows() -> list[Row]:
    """The table as it is kept."""
    with TABLE.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def name(row: Row) -> str:
    """A case in words."""
    parts = row["faults"].replace("_", " ").replace(":", " ").split(";") if row["faults"] else []
    parts += [f"airflow {row['airflow']}"] if row["airflow"] else []
    return f"{row['mode']}, {' and '.join(parts)}"


def expected(row: Row) -> float:
    """Change by the anchor; of a share in percent."""
    before, after = float(row["before"]), float(row["after"])
    return 100.0 * (after / before - 1.0) if MEASURES[row["reading"]].is_share else after - before


def found(row: Row) -> float:
    """The same change of the plant."""
    measure, bench = MEASURES[row["reading"]], Bench(metering=row["metering"])
    faults: Faults = tuple(
        (fault, float(amount))
        for fault, amount in (part.split(":") for part in row["faults"].split(";") if part)
    )
    settle = bench.heating if row["mode"] == "heating" else bench.at
    before, after = (
        measure.of(point)
        for point in (settle(), settle(airflow=float(row["airflow"] or 1.0), faults=faults))
    )
    return 100.0 * (after / before - 1.0) if measure.is_share else after - before


def judged(row: Row, got: float) -> State:
    """Within two fifths of the anchor's change, or of a change too small to count."""
    asked = expected(row)
    return state_of(abs(got - asked) <= max(WITHIN * abs(asked), MEASURES[row["reading"]].least))


def checked(row: Row) -> Verdict:
    """One size of one fault on the reference unit."""
    measure, got = MEASURES[row["reading"]], found(row)
    return Verdict(
        id=row["reading"],
        about=name(row),
        source=f"size anchor, {row['source']}; common practice, no source",
        where=f"quail_36 {'valve' if row['metering'] == 'txv' else 'orifice'}",
        expected=f"{expected(row):+.3g} {measure.unit}",
        got=f"{got:+.3g} {measure.unit}",
        tolerance=f"40 %, or {measure.least:g} {measure.unit}",
        state=judged(row, got),
    )


def all_checked() -> list[Verdict]:
    """Every row."""
    return [checked(row) for row in rows()]
