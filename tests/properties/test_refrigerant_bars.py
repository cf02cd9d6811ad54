"""The shipped table over its whole working range, against the latent heat of the state itself.

Bars: saturation 0.02 °F and 0.05 %; single phase 0.1 °F and 0.1 % of the latent heat, which
near the critical point is a third of what it is in a cold coil.
"""

from typing import Any, NamedTuple

import CoolProp
import numpy as np
import pytest

from simulator.properties import refrigerant

DEGREE = 1 / 1.8  # [K]
FLUID = refrigerant.load("R-410A")
# Saturation temperature: a cold coil, a warm one, a hot condenser, and close to critical.
BANDS = [(-20.0, 50.0), (50.0, 110.0), (110.0, 140.0), (140.0, 150.0)]
HOTTEST_DISCHARGE = 405.0  # [K]; well above where a compressor's own protection opens
MOST_SUPERHEAT, MOST_SUBCOOLING = 120.0, 55.0  # [K]


class Line(NamedTuple):
    """Both saturated states by CoolProp: temperature, enthalpy, density, entropy."""

    pressure: float
    dew: tuple[float, float, float, float]
    bubble: tuple[float, float, float, float]

    @property
    def latent(self) -> float:
        """Heat of evaporation."""
        return self.dew[1] - self.bubble[1]


@pytest.fixture(scope="module")
def reference() -> Any:
    return CoolProp.CoolProp.AbstractState("HEOS", "R410A")


@pytest.fixture(params=BANDS, ids=lambda band: f"{band[0]:.0f} to {band[1]:.0f} °F")
def lines(request: pytest.FixtureRequest, reference: Any) -> list[Line]:
    """Random saturated states of one band; the seed is fixed, the ends are included."""
    low, high = request.param
    chance = np.random.default_rng(410)
    found = []
    for fahrenheit in [low, high, *chance.uniform(low, high, 60)]:
        reference.update(CoolProp.QT_INPUTS, 1.0, (fahrenheit + 459.67) / 1.8)
        pressure = reference.p()
        dew = as_read(reference)
        reference.update(CoolProp.PQ_INPUTS, pressure, 0.0)
        found.append(Line(pressure, dew, as_read(reference)))
    return found


def as_read(state: Any) -> tuple[float, float, float, float]:
    return state.T(), state.hmass(), state.rhomass(), state.smass()


def at(state: Any, phase: int, pressure: float, temperature: float) -> Any:
    """CoolProp with the phase imposed: a free flash may take the wrong root."""
    state.specify_phase(phase)
    state.update(CoolProp.PT_INPUTS, pressure, temperature)
    state.unspecify_phase()
    return state


def test_saturation(lines: list[Line]) -> None:
    table = FLUID.saturation(np.log([line.pressure for line in lines]))
    latent = np.array([line.latent for line in lines])
    dew = np.array([line.dew for line in lines]).T
    bubble = np.array([line.bubble for line in lines]).T
    assert np.abs(table.dew_temperature - dew[0]).max() < 0.02 * DEGREE
    assert np.abs(table.bubble_temperature - bubble[0]).max() < 0.02 * DEGREE
    assert np.abs((table.vapour_enthalpy - dew[1]) / latent).max() < 0.0005
    assert np.abs((table.liquid_enthalpy - bubble[1]) / latent).max() < 0.0005
    assert np.abs(table.vapour_density / dew[2] - 1.0).max() < 0.0005
    assert np.abs(table.liquid_density / bubble[2] - 1.0).max() < 0.0005
    evaporation = latent / dew[0]
    assert np.abs((table.vapour_entropy - dew[3]) / evaporation).max() < 0.0005
    assert np.abs((table.liquid_entropy - bubble[3]) / evaporation).max() < 0.0005


def test_superheated_vapour(lines: list[Line], reference: Any) -> None:
    chance = np.random.default_rng(411)
    for line in lines:
        most = min(MOST_SUPERHEAT, HOTTEST_DISCHARGE - line.dew[0])
        log = np.log(line.pressure)
        saturated = FLUID.saturation(log)
        for superheat in (0.01, 1.0, *chance.uniform(1.0, most, 6), most):
            state = at(reference, CoolProp.iphase_gas, line.pressure, line.dew[0] + superheat)
            above = state.hmass() - line.dew[1]
            found = FLUID.vapour(log, saturated, above)
            warmth = abs(found.temperature - state.T())
            assert warmth < 0.1 * DEGREE
            assert warmth * state.cpmass() < 0.001 * line.latent
            assert abs(found.density / state.rhomass() - 1.0) < 0.001
            assert abs(found.entropy - state.smass()) * state.T() < 0.001 * line.latent
            rise = FLUID.vapour_enthalpy_above_dew(log, saturated, state.smass() - line.dew[3])
            assert abs(rise - above) < 0.001 * line.latent


def test_subcooled_liquid(lines: list[Line], reference: Any) -> None:
    chance = np.random.default_rng(412)
    for line in lines:
        most = min(MOST_SUBCOOLING, line.bubble[0] - 225.0)
        log = np.log(line.pressure)
        saturated = FLUID.saturation(log)
        for subcooling in (0.01, 1.0, *chance.uniform(1.0, most, 6), most):
            colder = line.bubble[0] - subcooling
            state = at(reference, CoolProp.iphase_liquid, line.pressure, colder)
            found = FLUID.liquid(log, saturated, line.bubble[1] - state.hmass())
            warmth = abs(found.temperature - colder)
            assert warmth < 0.1 * DEGREE
            assert warmth * state.cpmass() < 0.001 * line.latent
            assert abs(found.density / state.rhomass() - 1.0) < 0.001
