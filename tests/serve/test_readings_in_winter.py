"""``benchcall readings`` while heating, up the mountain, and with another refrigerant."""

import math
from typing import Any

import numpy as np
import pytest

from simulator.faults._catalogue import discover
from simulator.plant import stacking, steady
from simulator.quantities.entered import BadEntry
from simulator.serve import bench_readings
from simulator.serve.bench_readings import as_table, readings
from simulator.serve.stand.limits import (
    HEATING_LIMITS,
    LIMITS,
    MODES,
    MOST_FAULTS,
    MOTORS,
    REFRIGERANTS,
    UNITS,
    ZONES,
)
from simulator.serve.stand.outdoor_air import humidity_of
from simulator.serve.stand.setting import Setting, checked, conditions_of, installation_of
from simulator.serve.stand_page.words import STATES


def values(part: str, **asked: Any) -> dict[str, float]:
    """Plain numbers by name."""
    return {name: row["value"] for name, row in readings(**asked)[part].items()}


def test_the_usual_winter_is_the_rating_point() -> None:
    # AHRI 210/240, H1: 47 °F dry and 43 °F wet outdoors, 70 °F indoors.
    usual = readings(mode="heating")
    named = readings(mode="heating", outdoor=47.0, outdoor_wb=43.0, return_db=70.0)
    for part in ("readings", "truth"):
        for name, row in named[part].items():
            assert usual[part][name]["value"] == pytest.approx(row["value"], rel=1e-4, abs=1e-3)


def test_heating_has_its_own_names_and_units() -> None:
    found = readings(mode="heating")
    assert found["mode"] == "heating"
    for name, unit in (
        ("vapour_line_pressure", "psig"),
        ("vapour_line_temperature", "°F"),
        ("temperature_rise", "°F"),
    ):
        assert found["readings"][name]["unit"] == unit
    for name, unit in (
        ("gross_capacity", "Btu/h"),
        ("gross_power", "W"),
        ("cop", ""),
        ("frost_rate", "lb/h"),
        ("coil_below_freezing", ""),
        ("collecting_frost", ""),
        ("evaporating_temperature", "°F"),
        ("condensing_temperature", "°F"),
    ):
        assert found["truth"][name]["unit"] == unit
    # The large pipe carries hot gas in winter: by what the reversing valve does.
    shown = {name: row["value"] for name, row in found["readings"].items()}
    assert shown["vapour_line_pressure"] > shown["suction_pressure"]
    assert shown["vapour_line_temperature"] > shown["supply_plenum_temperature"]
    assert "temperature_split" not in shown


def test_a_heat_pump_gives_less_in_the_cold() -> None:
    # Common practice, no source: capacity and COP fall with the outdoor temperature, and
    # the coil gives more than its power, since the rest comes from outdoors.
    found = [values("truth", mode="heating", outdoor=cold) for cold in (-5.0, 17.0, 35.0, 47.0)]
    for name in ("gross_capacity", "cop", "evaporating_temperature"):
        assert [row[name] for row in found] == sorted(row[name] for row in found)
    assert found[0]["cop"] > 1.0
    watts = found[3]["gross_capacity"] * 0.29307107
    assert found[3]["cop"] == pytest.approx(watts / found[3]["gross_power"], rel=1e-6)


def test_frost_needs_a_freezing_coil_and_moist_air() -> None:
    # By what frost is: water that settles below 32 °F. Above, it runs off.
    damp = values("truth", mode="heating", outdoor=35.0, outdoor_wb=34.0)
    dry = values("truth", mode="heating", outdoor=35.0, outdoor_wb=24.0)
    warm = values("truth", mode="heating", outdoor=62.0, outdoor_wb=56.0)
    assert damp["evaporating_temperature"] < 32.0 < warm["evaporating_temperature"]
    assert damp["coil_below_freezing"] == damp["collecting_frost"] == 1.0
    assert damp["frost_rate"] > 0.5
    assert dry["coil_below_freezing"] == 1.0
    assert dry["collecting_frost"] == dry["frost_rate"] == 0.0
    assert warm["coil_below_freezing"] == warm["collecting_frost"] == warm["frost_rate"] == 0.0


@pytest.mark.parametrize("mode", MODES)
def test_thin_air(mode: str) -> None:
    # Standard atmosphere, ICAO: 12.2 psia at 5,000 ft. A constant-torque blower moves more
    # cubic feet of thinner air and less mass: common practice, no source.
    sea, high = (readings(mode=mode, altitude=feet) for feet in (0.0, 5000.0))
    airflows = [found["readings"]["airflow"]["value"] for found in (sea, high)]
    assert airflows[0] < airflows[1] < airflows[0] / (12.2 / 14.7)
    setting = Setting(mode=mode, altitude=5000.0)
    assert conditions_of(setting).pressure / 6894.757 == pytest.approx(12.23, abs=0.02)
    point = bench_readings.solved(checked(setting))
    gauge = high["readings"]["suction_pressure"]["value"]
    assert gauge == pytest.approx(point.suction_pressure / 6894.757 - 12.23, abs=0.02)


def test_what_is_in_the_circuit_sets_its_pressures() -> None:
    # Saturation at 46 °F, CoolProp tables under properties: R-22 boils near 77 psig, the
    # others near 130, R-454B the lowest of them.
    found = {name: readings(refrigerant=name) for name in REFRIGERANTS}
    low = {name: row["readings"]["suction_pressure"]["value"] for name, row in found.items()}
    assert low["R-22"] < 100.0 < low["R-454B"] < min(low["R-410A"], low["R-32"])
    charges = {row["truth"]["refrigerant_charge"]["value"] for row in found.values()}
    assert max(charges) == pytest.approx(min(charges), rel=1e-4)  # a drop-in, weighed as ever
    assert found["R-410A"]["readings"] == readings()["readings"]


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize("mode", MODES)
def test_every_unit_stands_there(unit: str, mode: str) -> None:
    # AHRI 210/240: at its rating point a unit runs.
    found = readings(unit=unit, mode=mode)
    assert (found["state"], found["mode"]) == ("running", mode)
    assert found["truth"]["cop"]["value"] > 2.0


@pytest.mark.parametrize("zone", ZONES)
def test_the_day_has_its_bill_in_winter(zone: str) -> None:
    found = values("truth", mode="heating", zone=zone, outdoor=10.0)
    parts = [found[f"{part}_energy"] for part in ("compressor", "outdoor_fan", "blower", "strips")]
    assert found["total_energy"] == pytest.approx(sum(parts))
    mild = values("truth", mode="heating", zone=zone, outdoor=65.0)  # no frost, even at night
    assert mild["strips_energy"] == 0.0 < found["strips_energy"]
    assert 0.0 < mild["run_fraction"] < found["run_fraction"] <= 100.0


@pytest.mark.parametrize(
    ("dry", "wet", "water"),
    # ASHRAE Handbook, Fundamentals 2017, ch. 1, eqs. 33 and 35, worked by PsychroLib 2.5.
    [(8.3333, 6.1111, None), (-5.0, -6.0, None), (1.6667, -1.0, None)],
)
def test_two_thermometers_give_the_water(dry: float, wet: float, water: None) -> None:
    psychrolib = pytest.importorskip("psychrolib")
    psychrolib.SetUnitSystem(psychrolib.SI)
    theirs = psychrolib.GetHumRatioFromTWetBulb(dry, wet, 101325.0)
    assert humidity_of(dry + 273.15, wet + 273.15, 101325.0) == pytest.approx(theirs, rel=2e-3)


def picked(chance: np.random.Generator) -> dict[str, Any]:
    """A setting that may be anything: mostly sound, each part sometimes out of bounds."""
    mode = str(chance.choice([*MODES, "drying"], p=[0.49, 0.49, 0.02]))
    limits = HEATING_LIMITS if mode == "heating" else LIMITS
    asked: dict[str, Any] = {"mode": mode}
    for key, (low, high, *_) in limits.items():
        if chance.random() < 0.5:
            far = 0.1 * (high - low) if chance.random() < 0.1 else 0.0
            asked[key] = chance.uniform(low - far, high + far)
    for key, words in (
        ("unit", UNITS), ("refrigerant", REFRIGERANTS), ("metering", ("txv", "orifice")),
        ("motor", MOTORS), ("zone", ZONES),
    ):  # fmt: skip
        if chance.random() < 0.3:
            asked[key] = str(chance.choice(words))
    count = int(chance.choice([0, 0, 1, 1, 2, MOST_FAULTS]))
    names = [str(name) for name in chance.choice(sorted(discover()), count, replace=False)]
    asked["faults"] = {
        name: chance.uniform(discover()[name].low, discover()[name].high) for name in names
    }
    return asked


def refused(asked: dict[str, Any]) -> bool:
    """Whether it is; then in one sentence."""
    try:
        checked(Setting(**asked))
    except BadEntry:
        with pytest.raises(BadEntry, match=r"^[A-Z][^\n]*[^.\n]\.$"):
            checked(Setting(**asked))
        return True
    return False


def test_two_thousand_settings_each_get_a_sentence_or_finite_numbers() -> None:
    chance = np.random.default_rng(20)
    picks = [picked(chance) for _ in range(2000)]
    sound = [checked(Setting(**asked)) for asked in picks if not refused(asked)]
    assert 700 < len(sound) < 1900
    point = steady.solve_many(
        [installation_of(setting) for setting in sound],
        [conditions_of(setting) for setting in sound],
    )
    states = []
    for index, setting in enumerate(sound):
        table = as_table(stacking.chosen(point, index), setting.mode)
        assert table["state"] in STATES
        assert table["mode"] in MODES
        rows = [*table["readings"].items(), *table["truth"].items()]
        wild = {name: row["value"] for name, row in rows if not math.isfinite(row["value"])}
        assert not wild, setting
        states.append(table["state"])
    assert states.count("running") > 0.5 * len(states)
