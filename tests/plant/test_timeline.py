"""Start-up: readings taken too early are honestly wrong, and come right."""

import pytest

from simulator.plant import standing, timeline
from simulator.plant.catalogue import load_installation
from tests.plant.stand import settled, weather


def test_subcooling_builds_up_over_minutes() -> None:
    built, final = load_installation(), settled()
    early = timeline.quasi_steady(built, weather(), 60.0)
    late = timeline.quasi_steady(built, weather(), timeline.SETTLED_AFTER)
    assert early.subcooling < final.subcooling - 1.5
    assert late.subcooling == pytest.approx(final.subcooling, abs=0.1)


def test_a_unit_at_rest_has_one_pressure_and_no_flow() -> None:
    rest = standing.at_rest(load_installation(), weather())
    assert rest.suction_pressure == rest.liquid_pressure
    assert rest.airflow == rest.compressor_current == rest.total_external_static == 0.0
