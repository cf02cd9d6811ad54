"""An open filter slot is a sharp-edged orifice at the suction that is left there."""

from math import sqrt

import pytest

from simulator.properties import moist_air
from tests.plant.stand import installed, settled

INCH = 0.0254  # [m]
WATER = 249.089  # of an inch of water [Pa]


@pytest.mark.parametrize("leak", [0.0, 0.3])
@pytest.mark.parametrize("area", [10.0, 30.0, 60.0, 80.0])
def test_its_flow_is_that_of_an_orifice(area: float, leak: float) -> None:
    """V = 0.6 A sqrt(2 dp / rho), ASHRAE Handbook, Fundamentals."""
    open_slot = settled(faults=(("open_filter_slot", area), ("return_leak", leak)))
    density = float(
        moist_air.density(
            open_slot.grille_temperature, open_slot.grille_humidity_ratio, open_slot.pressure
        )
    )
    by_hand = 0.6 * area * INCH**2 * sqrt(2.0 * -float(open_slot.static_after_filter) / density)
    assert float(open_slot.slot_airflow) == pytest.approx(by_hand, rel=0.01)


def test_the_filter_drop_falls_by_the_square_of_what_still_meets_it() -> None:
    """Square law: by a third at 30 in² beside a clean filter, by 0.08 in wc beside a loaded one."""
    healthy, slot = settled(), settled(faults=(("open_filter_slot", 30.0),))
    share = float(slot.filter_airflow / healthy.filter_airflow)
    assert float(slot.filter_drop / healthy.filter_drop) == pytest.approx(share**2, rel=0.01)
    loaded = settled(faults=(("loaded_filter", 2.0),))
    both = settled(faults=(("loaded_filter", 2.0), ("open_filter_slot", 30.0)))
    assert float(loaded.filter_drop - both.filter_drop) > 0.08 * WATER
    assert installed(open_filter_slot=30.0).ducts.slot_area == pytest.approx(30.0 * INCH**2)
