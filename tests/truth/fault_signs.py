"""The direction each fault moves each reading, row by row, at its middling severity."""

from functools import lru_cache

from simulator.faults._catalogue import discover, named
from tests.faults.signs import healthy, observed, signs
from tests.truth.verdict import State, Verdict, state_of

# From tests/data/fault_signs.source.toml.
FLAT, LEAST_SHARE, LEAST_DIFFERENCE = 0.2, 0.005, 0.3


@lru_cache
def _observed(fault: str, case: str, metering: str) -> dict[str, float]:
    built = healthy(metering, case)
    if fault:
        built = named(fault, discover()[fault].typical).applied_to(built)
    return observed(built, case)


def moved(row: dict[str, str]) -> tuple[float, float]:
    """A reading before and after the fault."""
    where = row["mode"], row["metering"]
    before, after = (_observed(fault, *where) for fault in ("", row["fault"]))
    return before[row["quantity"]], after[row["quantity"]]


def judged(row: dict[str, str], before: float, after: float) -> State:
    """As the table's own source file says: beyond half a percent, or 0.3 K; or flat."""
    change = after - before
    if row["goes"] == "flat":
        return state_of(abs(change) < FLAT)
    kelvin = "temperature" in row["quantity"] or row["quantity"] in ("superheat", "subcooling")
    least = LEAST_DIFFERENCE if kelvin else LEAST_SHARE * abs(before)
    return state_of((change if row["goes"] == "up" else -change) > least)


def checked(row: dict[str, str]) -> Verdict:
    """One sign of one fault."""
    before, after = moved(row)
    amount = discover()[row["fault"]]
    return Verdict(
        id=row["fault"],
        about=f"{row['quantity'].replace('_', ' ')}, {row['mode']}",
        source=row["source"],
        where="valve" if row["metering"] == "txv" else "orifice",
        expected=row["goes"],
        got=f"{before:.5g} → {after:.5g} (SI)",
        tolerance="0.2 flat, 0.5 % or 0.3 K moved",
        state=judged(row, before, after),
        note=f"at {amount.typical:g} {amount.unit}",
    )


def all_checked() -> list[Verdict]:
    """Every row of every fault there is."""
    return [checked(row) for row in signs()]
