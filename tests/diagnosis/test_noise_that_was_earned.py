"""Belief takes a reading as loosely as the way it was taken deserves, cell by cell."""

from time import perf_counter

import numpy as np
import pytest

from simulator.diagnosis.tool_errors import felt
from simulator.instruments.measurements import MEASUREMENTS
from simulator.plant import steady
from tests.plant.stand import installed, weather

LOOSE = {
    "coil_airflow": "centre",
    "near_register_temperature": "infrared",
    "zone_temperature": "hatch",
    "zone_humidity": "hatch",
    "return_dry_bulb": "one_point",
    "return_wet_bulb": "one_point",
    "house_pressure": "gusts",
    "static_supply": "leaking_hole",
    "air_handler_current": "coarse",
    "suction_pressure": "not_seated",
}


@pytest.mark.parametrize(("key", "technique"), LOOSE.items())
def test_a_loose_reading_is_spread_and_quickly_worked_out(key: str, technique: str) -> None:
    point = steady.solve(installed(return_leak=0.1), weather())
    item = MEASUREMENTS[key]
    true = np.full(600, item.true_value(installed(), point))
    begun = perf_counter()
    mean, spread = felt(item, technique, true, point)
    assert perf_counter() - begun < 1.5
    assert (spread > 0.0).all()
    assert np.isfinite(mean).all()
    assert not felt(item, "careful", true, point)[1].any()


def test_a_cell_with_a_larger_leak_leaves_more_open() -> None:
    sound = steady.solve(installed(), weather())
    leaking = steady.solve(installed(return_leak=0.10), weather())
    item = MEASUREMENTS["return_dry_bulb"]
    cells = np.array([item.true_value(installed(), point) for point in (sound, leaking)])
    # Worked out around the sound house, as belief does for every cell.
    _, spread = felt(item, "one_point", cells, sound)
    assert spread[1] > 2.0 * spread[0]


def test_strips_that_heat_are_half_hidden_in_one_leg() -> None:
    sound = steady.solve(installed(), weather())
    heated = steady.solve(installed(strips_on=4.0), weather())
    item = MEASUREMENTS["air_handler_current"]
    cells = np.array([item.true_value(installed(), point) for point in (sound, heated)])
    mean, _ = felt(item, "one_leg", cells, sound)
    assert mean[0] == pytest.approx(cells[0])
    assert mean[1] < 0.7 * cells[1]
