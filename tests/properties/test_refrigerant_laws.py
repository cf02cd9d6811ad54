"""What any equation of state obeys, and what a solver needs of a table: no reference values."""

import numpy as np
import pytest

from simulator.properties import refrigerant
from simulator.quantities.values import Array

FLUID = refrigerant.load("R-410A")
LOG = np.linspace(np.log(5e5), np.log(4.2e6), 120)
LINE = FLUID.saturation(LOG)
DISTANCES = [1e3, 1e4, 4e4, 8e4]  # [J/kg]


@pytest.mark.parametrize("above", DISTANCES)
def test_heat_added_at_constant_pressure_is_temperature_times_entropy(above: float) -> None:
    step = 1.0
    here = FLUID.vapour(LOG, LINE, above)
    more = FLUID.vapour(LOG, LINE, above + step)
    less = FLUID.vapour(LOG, LINE, above - step)
    slope = 2.0 * step / (more.entropy - less.entropy)
    assert np.abs(slope / here.temperature - 1.0).max() < 2e-4


@pytest.mark.parametrize("above", DISTANCES)
def test_isentropic_work_is_volume_times_pressure_rise(above: float) -> None:
    """The two surfaces, one by enthalpy and one by entropy, are of the same fluid."""
    start = FLUID.vapour(LOG, LINE, above)

    def enthalpy(log: Array) -> Array:
        line = FLUID.saturation(log)
        rise = FLUID.vapour_enthalpy_above_dew(log, line, start.entropy - line.vapour_entropy)
        return np.asarray(line.vapour_enthalpy + rise)

    step = 1e-4
    volume = (enthalpy(LOG + step) - enthalpy(LOG - step)) / (2.0 * step * np.exp(LOG))
    assert np.abs(volume * start.density - 1.0).max() < 2e-3


@pytest.mark.parametrize("above", DISTANCES)
def test_entropy_leads_back_to_the_enthalpy(above: float) -> None:
    entropy = FLUID.vapour(LOG, LINE, above).entropy - LINE.vapour_entropy
    assert np.abs(FLUID.vapour_enthalpy_above_dew(LOG, LINE, entropy) - above).max() < 1.0


def test_the_blend_has_its_small_glide() -> None:
    """The bubble line lies below the dew line, by less than 0.2 K for this near-azeotrope."""
    glide = LINE.dew_temperature - LINE.bubble_temperature
    assert np.all(glide > 0.0)
    assert np.all(glide < 0.2)


def test_everything_moves_the_way_it_must() -> None:
    above = np.linspace(0.0, 1.1e5, 300)
    for log in (13.2, 14.0, 14.8, 15.2):
        line = FLUID.saturation(log)
        vapour = FLUID.vapour(log, line, above)
        assert np.all(np.diff(vapour.temperature) > 0.0)
        assert np.all(np.diff(vapour.entropy) > 0.0)
        assert np.all(np.diff(vapour.density) < 0.0)
        liquid = FLUID.liquid(log, line, 0.6 * above)
        assert np.all(np.diff(liquid.temperature) < 0.0)
        assert np.all(np.diff(liquid.density) > 0.0)
    assert np.all(np.diff(LINE.dew_temperature) > 0.0)
    assert np.all(np.diff(LINE.vapour_enthalpy - LINE.liquid_enthalpy) < 0.0)


def side_slopes(of: Array, step: float) -> tuple[Array, Array]:
    """Slopes left and right of the middle of three rows."""
    return (of[1] - of[0]) / step, (of[2] - of[1]) / step


@pytest.mark.parametrize("distance", [5e3, 4e4, 1e5])
def test_slopes_do_not_jump_between_cells(distance: float) -> None:
    """A solver with finite differences would see every kink."""
    rows, _ = FLUID.shape
    span = FLUID.step * len(FLUID.lines) / rows
    edges = FLUID.first + span * np.arange(1, rows)
    step = 1e-5
    logs = np.stack([edges - step, edges, edges + step])
    lines = FLUID.saturation(logs)
    for of in (
        FLUID.vapour(logs, lines, distance).temperature,
        np.log(FLUID.vapour(logs, lines, distance).density),
        FLUID.vapour_enthalpy_above_dew(logs, lines, distance / 400.0),
        FLUID.liquid(logs, lines, distance).temperature,
    ):
        left, right = side_slopes(np.asarray(of), step)
        assert np.abs(right - left).max() < 1e-3 * np.abs(left).max()


def test_slopes_do_not_jump_along_the_distance() -> None:
    _, columns = FLUID.shape
    log = 14.5
    line = FLUID.saturation(log)
    for which, state in ((0, FLUID.vapour), (2, FLUID.liquid)):
        reach = float(FLUID.reach[which])
        edges = reach / columns * np.arange(1, columns)
        step = 1e-6 * reach
        of = state(log, line, np.stack([edges - step, edges, edges + step])).temperature
        left, right = side_slopes(np.asarray(of), step)
        assert np.abs(right / left - 1.0).max() < 1e-4


def test_one_state_and_a_batch_agree() -> None:
    above = np.linspace(0.0, 9e4, len(LOG))
    batch = FLUID.vapour(LOG, LINE, above)
    for index in (0, 17, len(LOG) - 1):
        line = FLUID.saturation(LOG[index])
        alone = FLUID.vapour(LOG[index], line, above[index])
        assert np.allclose([column[index] for column in batch], alone, rtol=1e-13)
    stacked = FLUID.saturation(np.stack([LOG, LOG]))
    assert np.shape(stacked.liquid_entropy) == (2, len(LOG))
    assert np.array_equal(np.asarray(stacked.liquid_entropy)[1], LINE.liquid_entropy)


@pytest.mark.parametrize("pressure", [1.0, 1e9])
def test_beyond_the_table_its_end_is_held(pressure: float) -> None:
    inside = np.clip(pressure, FLUID.lowest_pressure, FLUID.highest_pressure)
    outside_line = FLUID.saturation(np.log(pressure))
    assert np.allclose(outside_line, FLUID.saturation(np.log(inside)), rtol=1e-9)
    vapour = FLUID.vapour(np.log(pressure), outside_line, 1e4)
    assert np.all(np.isfinite(vapour))
    assert np.all(np.isfinite(FLUID.liquid(np.log(pressure), outside_line, 1e4)))


def test_no_temperature_makes_a_pressure_that_is_not_a_number() -> None:
    found = FLUID.dew_pressure(np.array([1.0, 150.0, 400.0, 2000.0]))
    assert np.all(np.isfinite(found))
    assert np.all(found > 0.9 * FLUID.lowest_pressure)
    assert np.all(found < 1.1 * FLUID.highest_pressure)


def test_the_table_covers_every_condition_a_switch_allows() -> None:
    """From far below a low-pressure switch to above a 610 psig high-pressure switch."""
    assert FLUID.lowest_pressure < 101325.0 + 20.0 * 6894.757
    assert FLUID.highest_pressure > 101325.0 + 610.0 * 6894.757
