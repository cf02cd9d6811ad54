"""Each fault over its range: what the key readings do, and whether worse is worse."""

from dataclasses import dataclass

import numpy as np

from simulator.faults._catalogue import discover, named
from simulator.plant import steady
from simulator.plant.operating_point import OperatingPoint
from simulator.quantities.values import Array
from tests.faults.signs import AT, healthy, signs
from tests.truth.known import SWEEPS_MISSED
from tests.truth.size_anchors import MEASURES
from tests.truth.verdict import Verdict, state_of

STEPS = 13
# Key readings: field, scale and offset to the technician's unit, unit.
KEYS: dict[str, tuple[float, float, str]] = {
    "suction_pressure": (1 / 6894.757, -14.696, "psig"),
    "liquid_pressure": (1 / 6894.757, -14.696, "psig"),
    "superheat": (1.8, 0.0, "°F"),
    "subcooling": (1.8, 0.0, "°F"),
    "gross_capacity": (3.412142 / 1000.0, 0.0, "kBtu/h"),
    "delivered_capacity": (3.412142 / 1000.0, 0.0, "kBtu/h"),
    "outdoor_power": (1.0, 0.0, "W"),
    "airflow": (2118.88, 0.0, "cfm"),
    "air_handler_current": (1.0, 0.0, "A"),
}
# The bar: head, suction and capacity move one way as the fault grows.
ONE_WAY = ("suction_pressure", "liquid_pressure", "gross_capacity")
RIPPLE = 1e-5  # of the healthy value: what the solver leaves, nothing more
# What the trade goes by for each, and what of it is told of a sweep that turns: field, scale and
# offset to the technician's unit, name and unit.
COUNTED = {
    "suction_pressure": ("evaporating_temperature", 1.8, "evaporating temperature"),
    "liquid_pressure": ("liquid_pressure", 1 / 6894.757, "head"),
    "gross_capacity": ("gross_capacity", 100.0, "capacity"),
}
TOLD: tuple[tuple[str, float, float, str, str], ...] = (
    ("gross_capacity", 3.412142, 0.0, "capacity", "Btu/h"),
    ("refrigerant_flow", 7936.64, 0.0, "flow", "lb/h"),
    ("coil_superheat", 1.8, 0.0, "superheat at the coil", "°F"),
    ("evaporating_temperature", 1.8, -459.67, "boiling at", "°F"),
    ("condensing_temperature", 1.8, -459.67, "condensing at", "°F"),
    ("subcooling", 1.8, 0.0, "subcooling", "°F"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sweep:
    """One fault of one device in one mode over its range, at the rating point."""

    fault: str
    mode: str
    metering: str
    amounts: Array
    point: OperatingPoint

    @property
    def running(self) -> Array:
        """Where it runs; a trip has no reading of a running unit."""
        return np.asarray(self.point.state) == "running"

    def reading(self, name: str) -> Array:
        """In the technician's unit; nothing beyond a trip."""
        scale, offset, _ = KEYS[name]
        shown = np.asarray(getattr(self.point, name), dtype=float) * scale + offset
        return np.where(self.running, shown, np.nan)

    def turns_back(self, name: str) -> float:
        """How far a reading comes back from the way it went, over its healthy value."""
        values = self._while_running(name)
        if values.size < 2:
            return 0.0
        forward = _forward(values)
        return float(np.max(np.maximum.accumulate(forward) - forward) / abs(values[0]))

    def counts(self, name: str) -> float:
        """How far it comes back over the smallest change of it that the trade counts as one."""
        field, scale, measure = COUNTED[name]
        values = self._while_running(field)
        if values.size < 2:
            return 0.0
        if MEASURES[measure].is_share:
            values = values / abs(values[0])
        forward = _forward(values)
        back = float(np.max(np.maximum.accumulate(forward) - forward)) * scale
        return back / MEASURES[measure].least

    def at_its_turn(self, name: str) -> str:
        """Both ends and the turn of a reading, with what goes with it in the circuit."""
        runs = np.flatnonzero(self.running)
        forward = _forward(self._while_running(name))
        lowest = int(np.argmax(np.maximum.accumulate(forward) - forward))
        turn = int(np.argmax(forward[: lowest + 1]))
        inner = turn if 0 < turn < runs.size - 1 else lowest
        at = runs[sorted({0, inner, runs.size - 1})]

        def shown(field: str, scale: float, off: float) -> str:
            values = self._of(field)[at] * scale + off
            return ", ".join(f"{round(value, 1) + 0.0:.5g}" for value in values)

        rows = (f"{label} {shown(*of)} {unit}" for *of, label, unit in TOLD)
        return f"at {', '.join(f'{self.amounts[i]:.3g}' for i in at)}: {'; '.join(rows)}"

    def _of(self, name: str) -> Array:
        return np.asarray(getattr(self.point, name), dtype=float)

    def _while_running(self, name: str) -> Array:
        return self._of(name)[self.running]


def _forward(values: Array) -> Array:
    """Turned so that the end lies above the beginning."""
    way: Array = (np.sign(values[-1] - values[0]) or 1.0) * values
    return way


def sweeps() -> list[Sweep]:
    """Every fault there is, in the modes and devices that its rows of signs name."""
    modes = {(row["fault"], row["mode"]) for row in signs()}
    found = []
    for name, kind in discover().items():
        amounts = np.linspace(kind.low, kind.high, STEPS)
        for mode in (mode for mode in AT if (name, mode) in modes):
            for metering in kind.metering:
                built = healthy(metering, mode)
                worse = [named(name, float(amount)).applied_to(built) for amount in amounts]
                point = steady.solve_many(worse, [AT[mode]] * STEPS)
                found.append(
                    Sweep(fault=name, mode=mode, metering=metering, amounts=amounts, point=point)
                )
    return found


def turning(sweep: Sweep) -> list[str]:
    """Head, suction and capacity that do not move one way only."""
    return [name for name in ONE_WAY if sweep.turns_back(name) > RIPPLE]


def checked(sweep: Sweep) -> Verdict:
    """Head, suction and capacity of one sweep move one way only."""
    back = turning(sweep)
    told = [f"{name.replace('_', ' ')} by {100 * sweep.turns_back(name):.2g} %" for name in back]
    tripped = "" if sweep.running.all() else f"; trips from {sweep.amounts[~sweep.running][0]:g}"
    kind = discover()[sweep.fault]
    return Verdict(
        id=sweep.fault,
        about=f"{sweep.mode}, 0 to {kind.high:g} {kind.unit} ({kind.measure})",
        source="project's own bar: monotone in severity",
        where="valve" if sweep.metering == "txv" else "orifice",
        expected="one way",
        got=(f"turns back: {', '.join(told)}" if told else "one way") + tripped,
        tolerance=f"{100 * RIPPLE:g} % of the healthy value",
        state=state_of(not told),
        note=_why(sweep, back) if told else "",
    )


def _why(sweep: Sweep, back: list[str]) -> str:
    """The reason, how large the turn is to the trade, and what the circuit does at it."""
    reason = SWEEPS_MISSED.get((sweep.fault, sweep.mode, sweep.metering), "no reason known")
    largest = max(back, key=sweep.counts)
    size = f"{sweep.counts(largest):.2g} of the smallest change of it that counts as one"
    name = largest.replace("_", " ")
    return f"{reason}. {name[0].upper()}{name[1:]} turns by {size}; {sweep.at_its_turn(largest)}"


def summed(found: list[Sweep]) -> str:
    """How many turn back, and how many of them by what the trade would call a change."""
    turned = [(sweep, turning(sweep)) for sweep in found]
    turned = [(sweep, back) for sweep, back in turned if back]
    counted = sum(any(sweep.counts(name) >= 1.0 for name in back) for sweep, back in turned)
    least = ", ".join(
        f"{MEASURES[measure].least:g} {MEASURES[measure].unit} of {measure}"
        for _, _, measure in COUNTED.values()
    )
    return (
        f"Without any allowance {len(turned)} of {len(found)} sweeps turn back, "
        f"{counted} of them by what the trade counts as a change ({least})."
    )
