"""The coldest days: no part takes more than it could draw around the clock."""

import pytest

from simulator.faults._catalogue import discover, named
from simulator.plant import catalogue, steady
from simulator.plant.installation import Installation
from simulator.quantities.shown import to_display
from simulator.serve.stand import house_day
from tests.plant.stand import winter

UNITS = ("quail_36", "siskin_18", "martlet_24", "heron_30", "dunlin_48", "bittern_60")
METERING = pytest.mark.parametrize("metering", catalogue.METERING)
HARDEST = 1.6  # of a compressor's power at 47 °F, over its range and with its capacitor gone [-]
STRIPS = 15e3  # the largest kit that a fault leaves on [W]
WINTER_FAULTS = [
    (code, metering)
    for code, kind in sorted(discover().items())
    for metering in kind.metering
    if "heating" in kind.modes
]


def most_of_a_day(built: Installation) -> float:
    """All parts around the clock. [kWh]"""
    usual = steady.solve(built, winter(47.0))
    drawn = HARDEST * float(usual.outdoor_power) + 3.0 * float(usual.blower_power)
    strips = max(float(built.unit.strips.installed_power), STRIPS)
    return float(to_display(24.0 * 3600.0 * (drawn + strips), "energy"))


def taken(built: Installation, outdoor: float) -> dict[str, float]:
    found = house_day.truth(built, winter(outdoor))
    return {name: entry["value"] for name, entry in found.items()}


@METERING
@pytest.mark.parametrize("unit", UNITS)
def test_a_sound_unit_takes_no_more_than_its_parts_can(unit: str, metering: str) -> None:
    """First law: power times time; where the switch opens it takes less, never more."""
    built = catalogue.load_installation(unit=unit, metering=metering)
    for outdoor in (-5.0, -2.0, 0.0, 5.0, 11.0, 17.0):
        day = taken(built, outdoor)
        assert 0.0 <= day["compressor_energy"] < day["total_energy"] < most_of_a_day(built)
        assert day["run_fraction"] <= 100.0 + 1e-9


@pytest.mark.parametrize(("code", "metering"), WINTER_FAULTS)
def test_nor_does_a_faulty_one(code: str, metering: str) -> None:
    sound = catalogue.load_installation(metering=metering)
    kind = discover()[code]
    most = most_of_a_day(sound)
    for share, outdoor in ((0.6, 17.0), (1.0, 17.0), (1.0, 0.0)):
        size = kind.high if kind.is_all_or_nothing else share * kind.high
        assert 0.0 < taken(named(code, size).applied_to(sound), outdoor)["total_energy"] < most
