"""Published checks: a row of the table, a function for its number, one judge for all."""

import csv
import re
from collections.abc import Callable, Mapping
from pathlib import Path

from tests.truth.benches import Bench, claimed_class
from tests.truth.from_memory import MEMORY_CHECKS
from tests.truth.known import MEMORY_CAUSES
from tests.truth.published_air import AIR_CHECKS
from tests.truth.published_circuit import CIRCUIT_CHECKS
from tests.truth.verdict import State, Verdict, state_of

DATA = Path(__file__).parents[1] / "data"
TABLE, MEMORY = DATA / "published_checks.csv", DATA / "published_checks_from_memory.csv"
Row = Mapping[str, str]
Values = tuple[float, ...]
Check = Callable[[Bench], Values | str]
# Number of the check: the devices it can be asked of, and what the plant says.
CHECKS: dict[str, tuple[tuple[str, ...], Check]] = {**CIRCUIT_CHECKS, **AIR_CHECKS, **MEMORY_CHECKS}


def rows(table: Path = TABLE) -> list[Row]:
    """A table as it is kept."""
    with table.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def asked(bench: Bench, table: Path = TABLE) -> list[Row]:
    """The rows that can be asked of a bench; one for several classes, for the unit's own."""
    devices = [row for row in rows(table) if bench.metering in CHECKS[row["id"]][0]]
    return [own for row in devices if (own := _of_class(row, claimed_class(bench.unit)))]


def _of_class(row: Row, rated: int | None) -> Row | None:
    """The row narrowed to a unit's class where it names classes; none if it has no such one."""
    classes = re.search(r"unit of ([\d /]+) SEER", row["input"])
    if not classes:
        return row
    each = dict(zip(classes.group(1).split("/"), row["expected"].split("/"), strict=True))
    own = {int(name): value.strip() for name, value in each.items()}.get(rated or 0)
    return {**row, "input": f"{row['input']}; this unit: {rated}", "expected": own} if own else None


def checked(row: Row, bench: Bench) -> Verdict:
    """One published value against the plant."""
    got = CHECKS[row["id"]][1](bench)
    text = got if isinstance(got, str) else " / ".join(_plain(value) for value in got)
    state = judged(row, got)
    return Verdict(
        id=row["id"],
        about=f"{row['input']}: {row['quantity']}",
        source=row["source"],
        where=bench.label,
        expected=_with_unit(row["expected"], row["unit"]),
        got=_with_unit(text, row["unit"]),
        tolerance=_tolerance(row),
        state=state,
        note=row["note"] if state == "holds" else _with_cause(row, bench),
    )


def _with_cause(row: Row, bench: Bench) -> str:
    cause = MEMORY_CAUSES.get(row["id"], {}).get(bench.metering)
    return f"{row['note']}; because {cause}" if cause else row["note"]


def judged(row: Row, got: Values | str) -> State:
    """Hold what came out to the row's own limits.

    A row that expects words is met by the same words. Limits with a sign in front of the
    upper one are about each expected value. "constant within N" also bounds the spread.
    """
    if isinstance(got, str):
        return state_of(got == row["expected"])
    low, high = float(row["low"]), float(row["high"])
    about = [0.0] * len(got)
    if row["high"].startswith("+"):
        about = [float(part) for part in row["expected"].split("/")]
    inside = all(low <= value - middle <= high for value, middle in zip(got, about, strict=True))
    steady = re.search(r"constant within ([\d.]+)", row["expected"])
    return state_of(inside and (not steady or max(got) - min(got) <= float(steady.group(1))))


def all_checked(benches: list[Bench], table: Path = TABLE) -> list[Verdict]:
    """Every row that can be asked of each bench."""
    return [checked(row, bench) for bench in benches for row in asked(bench, table)]


def share(verdicts: list[Verdict], bench: Bench) -> float:
    """Part of a bench's rows inside their tolerance."""
    own = [item.holds for item in verdicts if item.where == bench.label]
    return sum(own) / len(own)


def _plain(value: float) -> str:
    return f"{value:.4g}"


def _with_unit(text: str, unit: str) -> str:
    return text if unit == "-" or text.endswith(f" {unit}") else f"{text} {unit}"


def _tolerance(row: Row) -> str:
    return f"{row['low']} to {row['high']}" if row["low"] else "the same verdict"
