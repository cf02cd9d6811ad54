"""A unit that trips on high pressure and starts again."""

from dataclasses import replace

import pytest

from simulator.plant.catalogue import load_installation
from simulator.plant.installation import Installation
from simulator.plant.short_cycle import LEAST_OFF_TIME, ShortCycle, short_cycle
from tests.plant.stand import weather


def with_fan(share: float) -> Installation:
    """The reference installation with a slow outdoor fan."""
    built = load_installation()
    coil = replace(built.unit.outdoor_coil, fan_fraction=share)
    return replace(built, unit=replace(built.unit, outdoor_coil=coil))


def turn(share: float, outdoor: float) -> ShortCycle:
    """One turn of a unit that must trip."""
    found = short_cycle(with_fan(share), weather(outdoor))
    assert found is not None
    return found


def test_a_healthy_unit_does_not_cycle() -> None:
    assert short_cycle(load_installation(), weather(105.0)) is None


def test_a_standing_fan_trips_within_minutes() -> None:
    """Two to eight minutes from start to trip: common practice, no source."""
    found = turn(0.0, 80.0)
    assert 60.0 <= found.on_seconds <= 480.0
    assert found.off_seconds >= LEAST_OFF_TIME
    assert found.run_share < 0.6


@pytest.mark.parametrize("outdoor", [95.0, 110.0])
def test_more_air_or_cooler_weather_runs_longer(outdoor: float) -> None:
    slow, faster = turn(0.1, outdoor), turn(0.2, outdoor)
    assert faster.on_seconds > slow.on_seconds
    assert turn(0.1, outdoor - 10.0).on_seconds > slow.on_seconds
    assert faster.mean_capacity > slow.mean_capacity
