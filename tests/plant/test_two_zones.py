"""Two zones on one system: dampers, a bypass and a call from one zone."""

from dataclasses import replace

import pytest

from simulator.plant import steady
from simulator.plant.catalogue import load_installation
from simulator.plant.operating_point import OperatingPoint
from tests.plant.stand import weather


def called(zone: float) -> OperatingPoint:
    """The house of two zones with one zone or both calling."""
    return steady.solve(load_installation(house="two_zones"), replace(weather(), zone_call=zone))


def test_both_zones_get_their_shares() -> None:
    """Mass balance: registers, leak and bypass are the fan flow."""
    both = called(0.0)
    flows = both.register_airflows
    assert sum(flows[:3]) / sum(flows) == pytest.approx(0.60, abs=1e-9)
    assert both.register_airflow + both.supply_leak_airflow == pytest.approx(both.airflow)


@pytest.mark.parametrize(("zone", "served"), [(1.0, slice(0, 3)), (2.0, slice(3, 6))])
def test_a_single_call_serves_its_zone(zone: float, served: slice) -> None:
    """Closed dampers leak a little, so the other zone gets almost nothing."""
    both, one = called(0.0), called(zone)
    flows = one.register_airflows
    assert sum(flows[served]) / sum(flows) > 0.85
    assert sum(flows[served]) > sum(both.register_airflows[served])


def test_a_single_call_raises_static_and_the_bypass_chills_the_return() -> None:
    """Square law of the branches left open; bypassed supply air comes back cold."""
    both, one = called(0.0), called(2.0)
    assert one.static_supply > both.static_supply
    assert one.airflow < both.airflow
    assert one.air_handler_return_temperature < both.air_handler_return_temperature - 1.0
    assert one.evaporating_temperature < both.evaporating_temperature
    through = one.register_airflow + one.supply_leak_airflow
    assert through == pytest.approx(0.85 * one.airflow, rel=1e-9)


def test_without_a_bypass_the_return_stays_as_it_was() -> None:
    built = load_installation(house="two_zones")
    shut = replace(built, ducts=replace(built.ducts, zoned_bypass_share=0.0))
    one = steady.solve(shut, replace(weather(), zone_call=2.0))
    with_bypass = called(2.0)
    assert one.static_supply > with_bypass.static_supply
    assert one.air_handler_return_temperature > with_bypass.air_handler_return_temperature + 1.0
