"""What any equation of state obeys, and what a solver needs of a table: no reference values."""

import numpy as np
import pytest

from simulator.properties import build, refrigerant
from simulator.properties.refrigerant import Refrigerant, Saturation
from simulator.quantities.values import Array

DISTANCES = [1e3, 1e4, 4e4, 8e4]  # [J/kg]


@pytest.fixture(params=refrigerant.known())
def fluid(request: pytest.FixtureRequest) -> Refrigerant:
    return refrigerant.load(request.param)


@pytest.fixture
def log(fluid: Refrigerant) -> Array:
    """From a cold coil to close to the table's top, logarithm of pressure over one pascal."""
    return np.linspace(np.log(4e5), np.log(0.96 * fluid.highest_pressure), 120)


@pytest.fixture
def line(fluid: Refrigerant, log: Array) -> Saturation:
    return fluid.saturation(log)


@pytest.mark.parametrize("above", DISTANCES)
def test_heat_added_at_constant_pressure_is_temperature_times_entropy(
    fluid: Refrigerant, log: Array, line: Saturation, above: float
) -> None:
    step = 1.0
    here = fluid.vapour(log, line, above)
    more = fluid.vapour(log, line, above + step)
    less = fluid.vapour(log, line, above - step)
    slope = 2.0 * step / (more.entropy - less.entropy)
    assert np.abs(slope / here.temperature - 1.0).max() < 2e-4


@pytest.mark.parametrize("above", DISTANCES)
def test_isentropic_work_is_volume_times_pressure_rise(
    fluid: Refrigerant, log: Array, line: Saturation, above: float
) -> None:
    """The two surfaces, one by enthalpy and one by entropy, are of the same fluid."""
    start = fluid.vapour(log, line, above)

    def enthalpy(log: Array) -> Array:
        line = fluid.saturation(log)
        rise = fluid.vapour_enthalpy_above_dew(log, line, start.entropy - line.vapour_entropy)
        return np.asarray(line.vapour_enthalpy + rise)

    step = 1e-4
    volume = (enthalpy(log + step) - enthalpy(log - step)) / (2.0 * step * np.exp(log))
    assert np.abs(volume * start.density - 1.0).max() < 2e-3


@pytest.mark.parametrize("above", DISTANCES)
def test_entropy_leads_back_to_the_enthalpy(
    fluid: Refrigerant, log: Array, line: Saturation, above: float
) -> None:
    entropy = fluid.vapour(log, line, above).entropy - line.vapour_entropy
    assert np.abs(fluid.vapour_enthalpy_above_dew(log, line, entropy) - above).max() < 1.0


# Widest glide of each at any pressure [K]: none for one substance, small for the
# near-azeotrope R-410A, about 1.5 K for R-454B (common practice, no source).
GLIDES = {"R-22": (0.0, 0.0), "R-32": (0.0, 0.0), "R-410A": (0.05, 0.2), "R-454B": (1.1, 1.8)}


def test_only_a_blend_glides(fluid: Refrigerant, line: Saturation) -> None:
    least, most = GLIDES[fluid.name]
    glide = np.asarray(line.dew_temperature - line.bubble_temperature)
    assert np.all(glide > least - 1e-6)
    assert np.all(glide < most + 1e-6)


def test_everything_moves_the_way_it_must(fluid: Refrigerant, line: Saturation) -> None:
    above = np.linspace(0.0, 1.1e5, 300)
    for pressure in (5.4e5, 1.2e6, 2.0e6, 3.0e6):
        at = np.log(pressure)
        here = fluid.saturation(at)
        vapour = fluid.vapour(at, here, above)
        assert np.all(np.diff(vapour.temperature) > 0.0)
        assert np.all(np.diff(vapour.entropy) > 0.0)
        assert np.all(np.diff(vapour.density) < 0.0)
        liquid = fluid.liquid(at, here, 0.6 * above)
        assert np.all(np.diff(liquid.temperature) < 0.0)
        assert np.all(np.diff(liquid.density) > 0.0)
    assert np.all(np.diff(line.dew_temperature) > 0.0)
    assert np.all(np.diff(line.vapour_enthalpy - line.liquid_enthalpy) < 0.0)


def side_slopes(of: Array, step: float) -> tuple[Array, Array]:
    """Slopes left and right of the middle of three rows."""
    return (of[1] - of[0]) / step, (of[2] - of[1]) / step


@pytest.mark.parametrize("distance", [5e3, 4e4, 1e5])
def test_slopes_do_not_jump_between_cells(fluid: Refrigerant, distance: float) -> None:
    """A solver with finite differences would see every kink."""
    rows = fluid.surfaces[0].shape[3]
    span = fluid.step * fluid.cells / rows
    edges = fluid.first + span * np.arange(1, rows)
    step = 1e-5
    logs = np.stack([edges - step, edges, edges + step])
    lines = fluid.saturation(logs)
    for of in (
        fluid.vapour(logs, lines, distance).temperature,
        np.log(fluid.vapour(logs, lines, distance).density),
        fluid.vapour_enthalpy_above_dew(logs, lines, distance / 400.0),
        fluid.liquid(logs, lines, distance).temperature,
    ):
        left, right = side_slopes(np.asarray(of), step)
        assert np.abs(right - left).max() < 1e-3 * np.abs(left).max()


def test_slopes_do_not_jump_along_the_distance(fluid: Refrigerant) -> None:
    log = 14.5
    line = fluid.saturation(log)
    for which, state in ((0, fluid.vapour), (2, fluid.liquid)):
        reach = float(fluid.reach[which])
        columns = fluid.surfaces[which].shape[4]
        edges = reach / columns * np.arange(1, columns)
        step = 1e-6 * reach
        of = state(log, line, np.stack([edges - step, edges, edges + step])).temperature
        left, right = side_slopes(np.asarray(of), step)
        assert np.abs(right / left - 1.0).max() < 1e-4


def test_one_state_and_a_batch_agree(fluid: Refrigerant, log: Array, line: Saturation) -> None:
    above = np.linspace(0.0, 9e4, len(log))
    batch = fluid.vapour(log, line, above)
    for index in (0, 17, len(log) - 1):
        here = fluid.saturation(log[index])
        alone = fluid.vapour(log[index], here, above[index])
        assert np.allclose([column[index] for column in batch], alone, rtol=1e-13)
    stacked = fluid.saturation(np.stack([log, log]))
    assert np.shape(stacked.liquid_entropy) == (2, len(log))
    assert np.array_equal(np.asarray(stacked.liquid_entropy)[1], line.liquid_entropy)


@pytest.mark.parametrize("pressure", [1.0, 1e9])
def test_beyond_the_table_its_end_is_held(fluid: Refrigerant, pressure: float) -> None:
    inside = np.clip(pressure, fluid.lowest_pressure, fluid.highest_pressure)
    outside_line = fluid.saturation(np.log(pressure))
    assert np.allclose(outside_line, fluid.saturation(np.log(inside)), rtol=1e-9)
    vapour = fluid.vapour(np.log(pressure), outside_line, 1e4)
    assert np.all(np.isfinite(vapour))
    assert np.all(np.isfinite(fluid.liquid(np.log(pressure), outside_line, 1e4)))


def test_beyond_the_table_the_pressure_is_held(fluid: Refrigerant) -> None:
    """A slightly hotter coil than the table knows makes its top, not a guess."""
    top = float(fluid.dew_temperature(fluid.highest_pressure))
    hot = np.array([top - 1e-7, top, top + 0.01, top + 1.0, 400.0, 2000.0])
    assert np.allclose(fluid.dew_pressure(hot), fluid.highest_pressure, rtol=1e-8)
    assert np.all(fluid.bubble_pressure(hot + 0.1) <= fluid.highest_pressure * (1 + 1e-12))
    assert np.allclose(
        fluid.dew_pressure(np.array([1.0, 150.0, 224.9])), fluid.lowest_pressure, rtol=1e-12
    )


@pytest.mark.parametrize("pressure", [1.5e5, 6e5, 2.4e6])
def test_beyond_the_reach_the_last_state_is_held(fluid: Refrigerant, pressure: float) -> None:
    log = np.log(pressure)
    line = fluid.saturation(log)
    vapour, isentrope, liquid = fluid.reach
    assert fluid.vapour(log, line, vapour + 5e4) == fluid.vapour(log, line, vapour)
    farthest = fluid.vapour_enthalpy_above_dew(log, line, isentrope)
    assert fluid.vapour_enthalpy_above_dew(log, line, 2.0 * isentrope) == farthest
    coldest = fluid.liquid(log, line, liquid)
    assert fluid.liquid(log, line, 2.0 * liquid) == coldest
    # No heat is left to take out of a liquid that has reached what its equation knows.
    left = line.liquid_enthalpy - fluid.coldest_liquid
    assert fluid.liquid(log, line, min(left, liquid)) == coldest
    assert coldest.temperature > build.FLUIDS[fluid.name].coldest_liquid - 0.5


# High-pressure switch that the table must pass [psig]: R-410A and R-32 open at about 610,
# R-22 at about 400, R-454B between 500 and 570 (common practice, no source).
SWITCHES = {"R-22": 400.0, "R-32": 610.0, "R-410A": 610.0, "R-454B": 570.0}


def test_the_table_covers_every_condition_a_switch_allows(fluid: Refrigerant) -> None:
    """From far below a low-pressure switch to above a high-pressure switch."""
    assert fluid.lowest_pressure < 101325.0 + 20.0 * 6894.757
    assert fluid.highest_pressure > 101325.0 + SWITCHES[fluid.name] * 6894.757
