"""Every shipped table over its whole working range, against the latent heat of the state itself.

Source of every expected value: CoolProp 7 or later, with the phase imposed. Bars: saturation
0.02 °F and 0.05 %; single phase 0.1 °F and 0.1 % of the latent heat, which near the critical
point is a third of what it is in a cold coil.
"""

from typing import Any, NamedTuple

import CoolProp
import numpy as np
import pytest

from simulator.properties import build, refrigerant
from simulator.properties.refrigerant import Refrigerant
from simulator.quantities.values import Array

DEGREE = 1 / 1.8  # [K]
# Hottest saturation temperature each table was made for, in whole °F.
TOPS = {"R-22": 160.0, "R-32": 160.0, "R-410A": 150.0, "R-454B": 150.0}
# Saturation temperature: a cold coil, a warm one, a hot condenser, and close to critical.
BANDS = [
    (name, low, min(high, top))
    for name, top in TOPS.items()
    for low, high in [(-54.0, -20.0), (-20.0, 50.0), (50.0, 110.0), (110.0, 130.0), (130.0, 160.0)]
]
HOTTEST_DISCHARGE = 423.15  # [K]; well above where a compressor's own protection opens
MOST_SUBCOOLING = 80.0  # [K]


class Stand(NamedTuple):
    """A table, its source, and the band of saturation temperature [K] to compare them in."""

    fluid: Refrigerant
    reference: Any
    coldest_liquid: float
    temperatures: Array


@pytest.fixture(params=BANDS, ids=lambda band: f"{band[0]} {band[1]:.0f} to {band[2]:.0f} °F")
def stand(request: pytest.FixtureRequest) -> Stand:
    """Random saturated states of one band; the seed is fixed, the ends are included."""
    name, low, high = request.param
    fahrenheit = [low, high, *np.random.default_rng(410).uniform(low, high, 60)]
    recipe = build.FLUIDS[name]
    reference = CoolProp.CoolProp.AbstractState("HEOS", recipe.key)
    kelvin = (np.array(fahrenheit) + 459.67) / 1.8
    return Stand(refrigerant.load(name), reference, recipe.coldest_liquid, kelvin)


class Node(NamedTuple):
    """One saturated state by CoolProp: [Pa], [K], [J/kg], [kg/m³], [J/(kg K)]."""

    pressure: float
    temperature: float
    enthalpy: float
    density: float
    entropy: float


def saturated(stand: Stand, quality: float) -> list[Node]:
    """By temperature; in a patch where the blend's flash gives up, by Newton from a guess."""
    found = []
    state = stand.reference
    for temperature in stand.temperatures:
        try:
            state.update(CoolProp.QT_INPUTS, quality, temperature)
        except ValueError:
            from_guess(stand, quality, temperature)
        found.append(Node(state.p(), state.T(), state.hmass(), state.rhomass(), state.smass()))
    return found


def from_guess(stand: Stand, quality: float, temperature: float) -> None:
    """CoolProp's phase equilibrium, started a little off the table's answer."""
    fluid, state = stand.fluid, stand.reference
    pressure = float((fluid.dew_pressure if quality else fluid.bubble_pressure)(temperature))
    line = fluid.saturation(np.log(pressure))
    guess = CoolProp.CoolProp.PyGuessesStructure()
    guess.T = temperature + 0.05
    guess.rhomolar_liq = 0.999 * float(line.liquid_density) / state.molar_mass()
    guess.rhomolar_vap = 1.001 * float(line.vapour_density) / state.molar_mass()
    guess.x = guess.y = state.get_mole_fractions()
    state.update_with_guesses(CoolProp.PQ_INPUTS, pressure, quality, guess)


def at(state: Any, phase: int, pressure: float, temperature: float) -> Any:
    """CoolProp with the phase imposed: a free flash may take the wrong root."""
    state.specify_phase(phase)
    try:
        state.update(CoolProp.PT_INPUTS, pressure, temperature)
    finally:
        state.unspecify_phase()
    return state


def latent_heat(line: refrigerant.Saturation) -> Any:
    return np.asarray(line.vapour_enthalpy - line.liquid_enthalpy)


def test_saturation(stand: Stand) -> None:
    for quality in (1.0, 0.0):
        pressure, temperature, enthalpy, density, entropy = np.array(saturated(stand, quality)).T
        line = stand.fluid.saturation(np.log(pressure))
        latent = latent_heat(line)
        dew = [line[0], line[2], line[4], line[6]]
        bubble = [line[1], line[3], line[5], line[7]]
        table = dew if quality else bubble
        assert np.abs(table[0] - temperature).max() < 0.02 * DEGREE
        assert np.abs((table[1] - enthalpy) / latent).max() < 0.0005
        assert np.abs(table[2] / density - 1.0).max() < 0.0005
        assert np.abs((table[3] - entropy) * temperature / latent).max() < 0.0005
        inverse = stand.fluid.dew_pressure if quality else stand.fluid.bubble_pressure
        assert np.abs(inverse(temperature) / pressure - 1.0).max() < 0.0005


def test_superheated_vapour(stand: Stand) -> None:
    chance = np.random.default_rng(411)
    for node in saturated(stand, 1.0):
        most = HOTTEST_DISCHARGE - node.temperature
        log = np.log(node.pressure)
        line = stand.fluid.saturation(log)
        latent = float(latent_heat(line))
        for superheat in (0.01, 1.0, *chance.uniform(1.0, most, 6), most):
            hot = node.temperature + superheat
            state = at(stand.reference, CoolProp.iphase_gas, node.pressure, hot)
            above = state.hmass() - node.enthalpy
            found = stand.fluid.vapour(log, line, above)
            warmth = abs(found.temperature - hot)
            assert warmth < 0.1 * DEGREE
            assert warmth * state.cpmass() < 0.001 * latent
            assert abs(found.density / state.rhomass() - 1.0) < 0.001
            assert abs(found.entropy - state.smass()) * hot < 0.001 * latent
            gained = state.smass() - node.entropy
            rise = stand.fluid.vapour_enthalpy_above_dew(log, line, gained)
            assert abs(rise - above) < 0.001 * latent


def test_subcooled_liquid(stand: Stand) -> None:
    chance = np.random.default_rng(412)
    for node in saturated(stand, 0.0):
        # The reader holds liquid up to 2 K above the coldest valid one.
        most = min(MOST_SUBCOOLING, node.temperature - stand.coldest_liquid - 2.0)
        log = np.log(node.pressure)
        line = stand.fluid.saturation(log)
        latent = float(latent_heat(line))
        for subcooling in (0.01, 1.0, *chance.uniform(1.0, most, 6), most):
            cold = node.temperature - subcooling
            state = at(stand.reference, CoolProp.iphase_liquid, node.pressure, cold)
            found = stand.fluid.liquid(log, line, node.enthalpy - state.hmass())
            warmth = abs(found.temperature - cold)
            assert warmth < 0.1 * DEGREE
            assert warmth * state.cpmass() < 0.001 * latent
            assert abs(found.density / state.rhomass() - 1.0) < 0.001
