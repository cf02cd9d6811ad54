"""Repairs are physics: the right one restores the healthy readings, a wrong one does not."""

from functools import lru_cache

import pytest

from simulator.faults._catalogue import discover as all_faults
from simulator.faults._catalogue import named
from simulator.plant import catalogue
from simulator.plant.installation import Installation
from simulator.repairs._catalogue import discover
from tests.faults.signs import cases, healthy, observed

REPAIRS = discover()
FAULTS = all_faults()
SIMPLE = [name for name, kind in REPAIRS.items() if kind.amount_name is None]
# Renewing the charge cures whatever sat in it; so do acts that open and recharge the circuit.
OPENS_CIRCUIT = {name for name in SIMPLE if REPAIRS[name].disturbs_charge}


def faulty(name: str, case: str = "cooling") -> Installation:
    """An installation with a middling fault, on a device it applies to."""
    kind = FAULTS[name]
    return named(name, kind.typical).applied_to(healthy(kind.metering[0], case))


def readings(installation: Installation, case: str = "cooling") -> dict[str, float]:
    """What is observed at the rating point, or over the day."""
    return observed(installation, case)


@lru_cache
def fine(metering: str, case: str) -> dict[str, float]:
    """What is observed where nothing is wrong."""
    return readings(healthy(metering, case), case)


def cures(repair: str, fault: str) -> bool:
    """Whether the plant, not a list, finds the healthy readings restored."""
    kind = FAULTS[fault]
    for case in cases(kind):
        worse = faulty(fault, case)
        mended = REPAIRS[repair]().applied_to(worse)
        if mended == worse:
            return False
        sound = healthy(kind.metering[0], case)
        if mended != sound and readings(mended, case) != pytest.approx(
            fine(kind.metering[0], case), rel=1e-6
        ):
            return False
    return True


@pytest.mark.parametrize("fault", FAULTS)
def test_what_a_fault_names_restores_and_an_unrelated_one_does_not(fault: str) -> None:
    said = set(FAULTS[fault].repairs)
    assert said
    assert said <= set(SIMPLE)
    cured_by = {repair for repair in SIMPLE if cures(repair, fault)}
    assert said <= cured_by
    assert cured_by - said <= OPENS_CIRCUIT
    assert cured_by < set(SIMPLE)


@pytest.mark.parametrize("repair", SIMPLE)
def test_a_needless_repair_leaves_a_healthy_unit_healthy(repair: str) -> None:
    built = catalogue.load_installation()
    assert readings(REPAIRS[repair]().applied_to(built)) == pytest.approx(readings(built), rel=1e-9)


@pytest.mark.parametrize(
    ("repair", "fault"),
    [
        ("replace_metering_device", "starved_outdoor_coil"),
        ("replace_outdoor_metering_device", "starving_valve"),
        ("replace_outdoor_metering_device", "undersized_orifice"),
        ("replace_outdoor_metering_device", "stuck_check_valve"),
        ("replace_check_valve", "starved_outdoor_coil"),
    ],
)
def test_a_new_device_does_nothing_for_the_other_coil_or_the_check_valve(
    repair: str, fault: str
) -> None:
    assert not cures(repair, fault)


def test_refrigerant_added_to_a_leaky_house_stays_added() -> None:
    leaky = faulty("supply_leak")
    gassed = REPAIRS["add_refrigerant"](0.5).applied_to(leaky)
    sealed = REPAIRS["seal_supply"]().applied_to(gassed)
    sound = readings(catalogue.load_installation())
    after = readings(sealed)
    assert after["subcooling"] > sound["subcooling"] + 2.0
    assert after["liquid_pressure"] > sound["liquid_pressure"] + 3e4
    gain = readings(gassed)["delivered_capacity"] - readings(leaky)["delivered_capacity"]
    assert abs(gain) < 0.05 * sound["delivered_capacity"]


def test_recovery_takes_back_what_was_added() -> None:
    built = catalogue.load_installation()
    back = REPAIRS["recover_refrigerant"](0.3).applied_to(
        REPAIRS["add_refrigerant"](0.3).applied_to(built)
    )
    assert back.unit.charge == pytest.approx(built.unit.charge)


@pytest.mark.parametrize("repair", REPAIRS)
def test_it_says_what_it_costs(repair: str) -> None:
    kind = REPAIRS[repair]
    assert kind.title
    assert kind.consequence
    assert kind.minutes > 0.0
    if kind.amount_name is not None:
        assert 0.0 < kind.low < kind.high
