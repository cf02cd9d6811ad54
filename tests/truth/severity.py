"""Each fault over its range: what the key readings do, and whether worse is worse."""

from dataclasses import dataclass

import numpy as np

from simulator.faults._catalogue import discover, named
from simulator.plant import steady
from simulator.plant.operating_point import OperatingPoint
from simulator.quantities.values import Array
from tests.faults.signs import AT, healthy, signs
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
        values = np.asarray(getattr(self.point, name), dtype=float)[self.running]
        if values.size < 2:
            return 0.0
        way = np.sign(values[-1] - values[0]) or 1.0
        forward = way * values
        return float(np.max(np.maximum.accumulate(forward) - forward) / abs(values[0]))


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


def checked(sweep: Sweep) -> Verdict:
    """Head, suction and capacity of one sweep move one way only."""
    back = {name: sweep.turns_back(name) for name in ONE_WAY}
    told = [
        f"{name.replace('_', ' ')} by {100 * share:.2g} %"
        for name, share in back.items()
        if share > RIPPLE
    ]
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
    )
