"""The tables and the batched solver against CoolProp and SciPy on the same balances."""

import numpy as np
import pytest

from simulator.plant import steady
from simulator.plant.case import Settled, prepared
from simulator.plant.report import operating_point
from tests.plant.stand import installed, weather, winter
from tests.reference import plain_solver

CASES = {
    "rated": (installed(), weather()),
    "hot": (installed("orifice"), weather(110.0)),
    "low on charge": (installed(undercharge=0.25), weather(85.0)),
    "heating": (installed(), winter(30.0)),
}


@pytest.mark.parametrize("name", CASES)
def test_readings_agree_with_coolprop(name: str) -> None:
    """Bars of this project: 0.05 psi and 0.05 °F."""
    built, around = CASES[name]
    ours = steady.solve(built, around)
    case = prepared(built, around)
    other = plain_solver.solved(built, around)[:, None]
    no = np.array([False])
    theirs = operating_point(case, Settled(other, ~no, np.zeros(1), no, no))
    for field in ("suction_pressure", "liquid_pressure"):
        assert getattr(ours, field) == pytest.approx(getattr(theirs, field)[0], abs=0.05 * 6894.76)
    for field in (
        "suction_line_temperature",
        "liquid_line_temperature",
        "discharge_temperature",
        "supply_plenum_temperature",
        "superheat",
        "subcooling",
    ):
        assert getattr(ours, field) == pytest.approx(getattr(theirs, field)[0], abs=0.05 / 1.8)
