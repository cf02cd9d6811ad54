"""The six units in the cold: they heat, or the switch opens that opens in the field."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from simulator.components import compressor, compressor_map
from simulator.plant import catalogue, steady
from simulator.plant.installation import Installation
from tests.plant.stand import installed, winter

UNITS = ("quail_36", "siskin_18", "martlet_24", "heron_30", "dunlin_48", "bittern_60")
EACH = pytest.mark.parametrize("unit", UNITS)
METERING = pytest.mark.parametrize("metering", ["txv", "orifice"])
OUTDOORS = (-5.0, 0.0, 3.0, 6.0, 10.0, 17.0, 28.0, 35.0, 47.0, 56.0, 65.0)  # [°F]


def with_coil(built: Installation, **changed: Any) -> Installation:
    """The same with another outdoor coil; frost as a share of what closes it."""
    coil = built.unit.outdoor_coil
    if "frost" in changed:
        changed["frost"] = changed["frost"] * float(coil.frost_capacity)
    return replace(built, unit=replace(built.unit, outdoor_coil=replace(coil, **changed)))


def over(built: Installation, outdoors: tuple[float, ...] = OUTDOORS) -> Any:
    """Its states over the weather."""
    return steady.solve_many([built] * len(outdoors), [winter(each) for each in outdoors])


@EACH
@METERING
def test_every_sound_unit_heats_from_minus_5_to_65(unit: str, metering: str) -> None:
    """-5 to 65 °F, and more heat in warmer air: common practice, no source."""
    point = over(catalogue.load_installation(metering=metering, unit=unit))
    assert set(point.state) == {"running"}
    assert (np.diff(point.gross_capacity) > 0.0).all()


@EACH
@METERING
@pytest.mark.parametrize("frost", [0.5, 0.75, 0.9])
def test_an_iced_coil_never_raises_the_head(unit: str, metering: str, frost: float) -> None:
    """A choked evaporator lowers suction: low pressure or a hot motor, common practice."""
    built = catalogue.load_installation(metering=metering, unit=unit)
    free, iced = over(built), over(with_coil(built, frost=frost))
    assert set(iced.state) <= {"running", "low_pressure_trip", "overload_trip"}
    both = (iced.state == "running") & (free.state == "running")
    assert (iced.discharge_pressure[both] < free.discharge_pressure[both]).all()
    assert (iced.suction_pressure[both] < free.suction_pressure[both]).all()


@EACH
def test_a_standing_fan_opens_the_low_pressure_switch(unit: str) -> None:
    """Common practice, no source: the valve follows, suction falls; worse as the coil freezes.

    Below 25 °F on the bare coil, below 35 °F once what air there is has left its frost. The
    switch of R-22 stands at 5 psig, at ten times which the discharge gas nears 290 °F.
    """
    built = catalogue.load_installation(metering="txv", unit=unit)
    bare = over(with_coil(built, fan_fraction=0.0), (-5.0, 3.0, 10.0))
    hot = {"overload_trip"} if built.unit.refrigerant == "R-22" else set()
    assert {"low_pressure_trip"} <= set(bare.state) <= {"low_pressure_trip", *hot}
    frozen = over(with_coil(built, fan_fraction=0.0, frost=0.75), (-5.0, 10.0, 17.0, 25.0, 35.0))
    assert set(frozen.state) == {"low_pressure_trip"}


@EACH
def test_an_orifice_floods_no_further_than_the_oil_hole_lets_through(unit: str) -> None:
    """An accumulator is there for it: common practice, no source. Without it liquid comes over.

    Held back, liquid leaves the condensing coil short of it, and the orifice passes less.
    """
    built = catalogue.load_installation(metering="orifice", unit=unit)
    lines = replace(built.unit.lines, accumulator_volume=0.0)
    bare = replace(built, unit=replace(built.unit, lines=lines))
    cold = (-5.0, 7.0, 17.0)
    kept, over_it = over(built, cold), over(bare, cold)
    assert (kept.refrigerant_flow < over_it.refrigerant_flow).all()
    assert (kept.discharge_temperature > over_it.discharge_temperature + 15.0).all()
    assert kept.gross_capacity[0] > over_it.gross_capacity[0]
    assert kept.refrigerant_charge == pytest.approx(over_it.refrigerant_charge, rel=1e-6)


def test_the_shell_sheds_more_as_it_grows_colder_outdoors() -> None:
    """By arithmetic: between gas temperatures that fall less than the air's."""
    point = over(installed(), (-5.0, 17.0, 47.0))
    share = point.compressor_shell_loss / point.compressor_power
    assert (np.diff(share) < 0.0).all()
    assert share[0] > 2.0 * share[2]


def test_gas_that_slips_back_is_paid_for() -> None:
    """By definition: less flow for the same power on what the wraps sweep."""
    tight = installed().unit.compressor
    loose = replace(tight, volumetric_slope=2.0 * tight.volumetric_slope)
    for ratio in (1.5, 4.0, 6.0):
        least = compressor.swept_mass_flow(loose, 30.0, ratio)
        asked = [
            compressor.swept_mass_flow(one, 30.0, ratio)
            / compressor.overall_efficiency(one, ratio)
            * compressor.overall_efficiency(one, one.best_pressure_ratio)
            / compressor.swept_mass_flow(one, 30.0, one.best_pressure_ratio)
            for one in (tight, loose)
        ]
        assert least < compressor.swept_mass_flow(tight, 30.0, ratio)
        assert asked[1] == pytest.approx(asked[0], rel=1e-9)


def test_losses_of_wraps_grow_as_those_of_a_fixed_volume_ratio() -> None:
    """Ideal gas to the built-in ratio, then at constant volume: Winandy 2002 (from memory).

    A machine without leaks, so that what the wraps lose stands alone.
    """
    machine, bent = (
        replace(installed().unit.compressor, volumetric_slope=0.0),
        0.13,
    )  # R-410A, (k - 1) / k
    built_in = machine.best_pressure_ratio

    def least(ratio: float) -> float:
        return (ratio**bent - 1.0) / bent

    for ratio in (1.1, 1.5, 2.0, 3.5, 4.5, 6.0):
        rest = built_in ** (bent - 1.0) * (ratio - built_in)
        wraps = least(ratio) / (least(built_in) + rest)
        found = compressor.overall_efficiency(machine, ratio) / machine.best_efficiency
        # Beyond their ratio friction and leaks take their own part with the wraps'; below it
        # the curve of this machine bends a tenth less than theirs.
        assert 0.9 * wraps < found < (wraps if ratio > built_in else 1.1 * wraps)


def test_work_stays_where_the_lift_goes() -> None:
    """Ideal gas squeezed to the built-in ratio and blown back: a third of its work is left.

    By the same arithmetic, from memory of Winandy 2002: at a lift of nothing the squeeze
    to 2.5 still costs 0.31 of what it costs against 2.5.
    """
    machine = replace(installed().unit.compressor, volumetric_slope=0.0)
    bent, built_in = 0.13, float(machine.best_pressure_ratio)

    def asked(ratio: float) -> float:
        return (ratio**bent - 1.0) / bent / float(compressor.overall_efficiency(machine, ratio))

    whole = (built_in**bent - 1.0) / bent
    left = 1.0 - built_in ** (bent - 1.0) * (built_in - 1.03) / whole
    assert asked(1.03) / asked(built_in) == pytest.approx(left, rel=0.12)
    steps = [asked(ratio) for ratio in np.linspace(1.03, 6.0, 60)]
    assert (np.diff(steps) > 0.0).all()


def test_a_map_made_of_efficiencies_gives_them_back() -> None:
    """By arithmetic: power worked out from a curve, and the curve found again."""
    machine = installed().unit.compressor
    ratio = np.linspace(1.6, 6.0, 30)
    density, lift = np.linspace(40.0, 15.0, 30), 20e3 * np.log(ratio) + 5e3
    flow = np.asarray(compressor.swept_mass_flow(machine, density, ratio))
    power = flow * lift / compressor.overall_efficiency(machine, ratio)
    said = compressor_map.efficiencies(
        flow, power, density, lift, ratio, float(machine.volumetric_efficiency)
    )
    assert said is not None
    assert said.best_efficiency == pytest.approx(machine.best_efficiency, rel=1e-6)
    assert said.efficiency_curvature == pytest.approx(machine.efficiency_curvature, rel=1e-6)
    assert said.power_stray < 1e-6
