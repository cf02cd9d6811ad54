"""Thousands of random installations: each settles or trips by name, and none is absurd."""

from dataclasses import fields, replace
from typing import Any, NamedTuple

import numpy as np
import pytest

from simulator.faults._catalogue import named
from simulator.plant import balance, catalogue, steady
from simulator.plant import case as cases
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.plant.motors import DESCRIBED
from simulator.plant.operating_point import OperatingPoint
from simulator.plant.report import operating_point
from simulator.plant.stacking import chosen, stacked
from simulator.properties import moist_air
from tests.plant.stand import fahrenheit, faulty, installed, weather

SAMPLE = 6000
TRIPS = ("high_pressure_trip", "low_pressure_trip", "overload_trip")
ZONES = ("attic", "crawl_space", "garage", "basement")
# How often each fault is present, and its largest amount in its own unit.
FAULTS = {
    "dirty_outdoor_coil": (0.6, 0.6),
    "leaking_compressor": (0.4, 0.5),
    "liquid_line_restriction": (0.4, 0.5),
    "loaded_filter": (0.5, 12.0),
    "non_condensables": (0.3, 80.0),
    "open_filter_slot": (0.3, 80.0),
    "return_leak": (0.6, 0.5),
    "strips_on": (0.3, 15.0),
    "supply_leak": (0.6, 0.5),
}
WORDS = ("state", "mode")
AIR = ("air_handler_return", "coil_leaving", "supply_plenum")
AROUND_DUCTS = ("zone", "return_zone")


def random_installation(chance: np.random.Generator) -> Installation:
    """Device, motor, zones, charge, blower and faults drawn over the field range."""
    built = catalogue.load_installation(
        metering=str(chance.choice(catalogue.METERING)),
        motor=str(chance.choice(DESCRIBED)),
        zone=str(chance.choice(ZONES)),
    )
    other = catalogue.load_installation(zone=str(chance.choice(ZONES))).supply_zone
    if chance.random() < 0.4 and other.kind != built.return_zone.kind:
        built = replace(built, supply_zone=other, zones_shared=0.0)
    unit = built.unit
    blower = replace(unit.blower, torque_fraction=chance.uniform(0.4, 1.3) ** 2)
    built = replace(
        built, unit=replace(unit, charge=unit.charge * chance.uniform(0.6, 1.4), blower=blower)
    )
    for name, (often, most) in FAULTS.items():
        if chance.random() < often:
            built = named(name, chance.uniform(0.0, most)).applied_to(built)
    return built


def random_conditions(chance: np.random.Generator) -> Conditions:
    """Outdoor 55 to 115 °F, dew point to 78 °F; indoor 65 to 90 °F at 30 to 70 %; any voltage."""
    outdoor, indoor = fahrenheit(chance.uniform(55, 115)), fahrenheit(chance.uniform(65, 90))
    pressure = chance.uniform(84000.0, 102000.0)
    dew_point = fahrenheit(chance.uniform(35, 78))
    damp = min(
        float(moist_air.saturated_humidity_ratio(dew_point, pressure)),
        float(moist_air.humidity_ratio(outdoor, 0.95, pressure)),
    )
    return Conditions(
        outdoor_temperature=outdoor,
        outdoor_humidity_ratio=damp,
        indoor_temperature=indoor,
        indoor_humidity_ratio=float(
            moist_air.humidity_ratio(indoor, chance.uniform(0.3, 0.7), pressure)
        ),
        solar=chance.uniform(0.0, 1000.0),
        voltage=chance.uniform(200.0, 252.0),
        pressure=pressure,
    )


class Sample(NamedTuple):
    """What was drawn and what came out of it."""

    built: list[Installation]
    around: list[Conditions]
    residuals: Any
    point: OperatingPoint
    fluid: Any

    @property
    def running(self) -> Any:
        return np.asarray(self.point.state) == "running"

    def reading(self, name: str) -> Any:
        """One field of all that run."""
        return np.asarray(getattr(self.point, name))[self.running]

    def humidity(self, place: str) -> Any:
        """Relative humidity at a place of all that run."""
        return moist_air.relative_humidity(
            self.reading(f"{place}_temperature"),
            self.reading(f"{place}_humidity_ratio"),
            self.reading("pressure"),
        )


@pytest.fixture(scope="module")
def sample() -> Sample:
    chance = np.random.default_rng(410)
    built = [random_installation(chance) for _ in range(SAMPLE)]
    around = [random_conditions(chance) for _ in built]
    held = cases.prepared(stacked(built), stacked(around))
    outcome = steady.settle(held, SAMPLE)
    left = balance.residuals(outcome.unknowns, held)
    return Sample(built, around, left, operating_point(held, outcome), held.fluid)


def test_nearly_every_scenario_settles_or_trips_by_name(sample: Sample) -> None:
    """Those that do neither say so and show no reading of a running unit; see the next test."""
    known = np.isin(sample.point.state, ["running", *TRIPS])
    assert known.mean() >= 0.999
    lost = np.asarray(sample.point.state)[~known]
    assert (lost == "no_solution").all()
    assert (np.asarray(sample.point.refrigerant_flow)[~known] == 0.0).all()
    assert sample.running.mean() > 0.9


@pytest.mark.parametrize("outdoor", [104.0, 106.0])
def test_a_full_coil_near_the_cut_out_settles_or_trips(outdoor: float) -> None:
    built = faulty("orifice", overcharge=0.385, weak_blower=0.7, dirty_outdoor_coil=0.55)
    point = steady.solve(built, weather(outdoor, dry=73.0, wet=62.0))
    assert point.state in ("running", *TRIPS)


def test_the_draw_reaches_everything(sample: Sample) -> None:
    """Each device, motor, zone and fault in hundreds of the cases that run."""
    running = [built for built, runs in zip(sample.built, sample.running, strict=True) if runs]
    kinds = {
        "valve": lambda item: item.unit.metering.is_thermostatic == 1.0,
        "orifice": lambda item: item.unit.metering.is_thermostatic == 0.0,
        "psc": lambda item: item.unit.blower.synchronous_speed > 0.0,
        "constant torque": lambda item: item.unit.blower.set_torque > 0.0,
        "air": lambda item: item.unit.foreign_gas > 0.0,
        "filter": lambda item: item.ducts.filter_loading > 2.0,
        "slot": lambda item: item.ducts.slot_area > 0.0,
        "strips": lambda item: item.unit.strips.energised_power > 0.0,
        "two zones": lambda item: item.zones_shared == 0.0,
        **{zone: lambda item, zone=zone: item.supply_zone.kind == zone for zone in ZONES},
    }
    for name, is_kind in kinds.items():
        assert sum(map(is_kind, running)) > 500, name


def test_what_runs_is_balanced(sample: Sample) -> None:
    assert np.abs(sample.residuals[:, sample.running]).max() < 1e-6


def test_a_batch_is_as_good_as_one_at_a_time(sample: Sample) -> None:
    """Stacked arrays carry each case's own numbers."""
    for index in np.flatnonzero(sample.running)[:: SAMPLE // 12]:
        alone = steady.solve(sample.built[index], sample.around[index])
        there = chosen(sample.point, int(index))
        for field in fields(OperatingPoint):
            one, many = getattr(alone, field.name), getattr(there, field.name)
            if field.name not in WORDS:
                assert many == pytest.approx(one, rel=1e-5, abs=1e-5), field.name


def test_no_reading_is_missing(sample: Sample) -> None:
    """Of those that trip as well."""
    for field in fields(OperatingPoint):
        if field.name not in WORDS:
            values = np.asarray(getattr(sample.point, field.name), dtype=float)
            assert np.isfinite(values).all(), field.name


def test_heat_flows_downhill(sample: Sample) -> None:
    """Second law: refrigerant colder than the air it cools, hotter than the air it heats."""
    assert (
        sample.reading("evaporating_temperature") < sample.reading("coil_leaving_temperature")
    ).all()
    coldest = sample.reading("coil_leaving_temperature")
    assert (coldest < sample.reading("air_handler_return_temperature")).all()
    outdoor = sample.reading("outdoor_temperature")
    assert (sample.reading("condensing_temperature") > outdoor).all()
    assert (sample.reading("liquid_line_temperature") > outdoor).all()
    assert (sample.reading("outdoor_leaving_temperature") > outdoor).all()


def test_pressure_falls_along_the_flow(sample: Sample) -> None:
    assert (sample.reading("discharge_pressure") > sample.reading("liquid_pressure")).all()
    boiling = sample.fluid.dew_pressure(sample.reading("evaporating_temperature"))
    assert (sample.reading("liquid_pressure") > boiling).all()
    assert (boiling > sample.reading("suction_pressure")).all()


def test_superheat_before_it_is_cut_off_at_zero(sample: Sample) -> None:
    """Wet vapour lies below the dew point by no more than the glide."""
    port = sample.reading("suction_pressure")
    dew = sample.fluid.dew_temperature(port)
    glide = dew - sample.fluid.bubble_temperature(port)
    raw = sample.reading("suction_line_temperature") - dew
    assert (raw > -glide - 1e-9).all()
    assert np.abs(np.maximum(raw, 0.0) - sample.reading("superheat")).max() < 1e-9
    assert (raw < 0.0).sum() > 100  # the draw reaches wet suction


def test_watts_are_volts_times_amps_times_power_factor(sample: Sample) -> None:
    held = stacked(sample.built).unit
    voltage = np.array([item.voltage for item in sample.around])[sample.running]
    parts = {
        "compressor": held.compressor.power_factor,
        "outdoor_fan": held.outdoor_coil.fan_power_factor,
        "blower": np.broadcast_to(held.blower.power_factor, SAMPLE)[sample.running],
        "strip": 1.0,
    }
    for part, factor in parts.items():
        watts = voltage * sample.reading(f"{part}_current") * factor
        assert np.allclose(watts, sample.reading(f"{part}_power"), rtol=1e-12, atol=1e-9), part
    for whole, members in (
        ("outdoor", ("compressor", "outdoor_fan")),
        ("air_handler", ("blower", "strip")),
    ):
        added = sum(sample.reading(f"{part}_power") for part in members)
        assert np.allclose(added, sample.reading(f"{whole}_power"), rtol=1e-12), whole
        # Currents of different power factor add as phasors, all of them lagging.
        phasor = sum(
            sample.reading(f"{part}_current")
            * (parts[part] - 1j * np.sqrt(1.0 - np.square(parts[part])))
            for part in members
        )
        assert np.allclose(np.abs(phasor), sample.reading(f"{whole}_current"), rtol=1e-12), whole
    strips = np.asarray(held.strips.energised_power)[sample.running]
    ohms = 240.0**2 / np.maximum(strips, 1e-9)
    assert np.allclose(sample.reading("strip_power"), voltage**2 / ohms, rtol=1e-12, atol=1e-6)


def test_air_entering_the_coil_is_not_wetter_than_saturated(sample: Sample) -> None:
    assert sample.humidity("air_handler_return").max() <= 1.0


@pytest.mark.parametrize("place", AIR[1:])
def test_cooled_air_is_not_wetter_than_saturated(sample: Sample, place: str) -> None:
    assert sample.humidity(place).max() <= 1.001


@pytest.mark.parametrize("place", AROUND_DUCTS)
def test_zone_air_is_not_wetter_than_saturated(sample: Sample, place: str) -> None:
    assert sample.humidity(place).max() <= 1.001


def test_solution_does_not_depend_on_the_start() -> None:
    held = cases.prepared(installed("orifice", undercharge=0.15), weather())
    usual = steady.settle(held, 1)
    start = steady.first_guess(held, 1)
    start[:5] += np.array([[-0.2], [0.15], [0.2], [-0.1], [-0.3]])
    other = steady.settle(held, 1, start)
    assert other.converged.all()
    assert np.allclose(usual.unknowns, other.unknowns, atol=1e-5)


def test_extreme_head_trips_by_name() -> None:
    point = steady.solve(faulty(dirty_outdoor_coil=0.7, overcharge=0.5), weather(118.0))
    assert point.state == "high_pressure_trip"
    assert point.compressor_current == 0.0
