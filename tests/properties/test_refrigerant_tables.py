"""The shipped tables: numbers known elsewhere, laws, size and speed, and where they come from."""

import dataclasses
import time
from importlib.resources import files
from typing import Any

import CoolProp
import numpy as np
import pytest

from simulator.properties import build, refrigerant
from simulator.properties.refrigerant import Refrigerant

KELVIN = 273.15


@pytest.fixture(params=refrigerant.known())
def fluid(request: pytest.FixtureRequest) -> Refrigerant:
    return refrigerant.load(request.param)


def test_published_dew_pressures(published: dict[str, Any]) -> None:
    fluid = refrigerant.load("R-410A")
    expected = [float(x) for x in published["P29"]["expected"].split("/")]
    for fahrenheit, gauge in zip((40.0, 110.0), expected, strict=True):
        absolute = float(fluid.dew_pressure((fahrenheit + 459.67) / 1.8))
        found = (absolute - 101325.0) / 6894.757
        assert abs(found - gauge) <= float(published["P29"]["high"]), published["P29"]["source"]


def test_clausius_clapeyron(fluid: Refrigerant) -> None:
    """A law, no table: dp/dT of the saturation line is latent heat over T and volume change."""
    temperature = np.linspace(250.0, 325.0, 40)
    step = 0.01
    slope = (fluid.dew_pressure(temperature + step) - fluid.dew_pressure(temperature - step)) / (
        2 * step
    )
    line = fluid.saturation(np.log(fluid.dew_pressure(temperature)))
    volume = 1.0 / line.vapour_density - 1.0 / line.liquid_density
    latent = line.vapour_enthalpy - line.liquid_enthalpy
    assert np.abs(slope * temperature * volume / latent - 1.0).max() < 0.01


def test_states_meet_their_saturation_line(fluid: Refrigerant) -> None:
    log = np.log(np.linspace(2e5, 0.99 * fluid.highest_pressure, 50))
    line = fluid.saturation(log)
    zero = np.zeros_like(log)
    assert np.array_equal(fluid.vapour(log, line, zero).temperature, line.dew_temperature)
    assert np.array_equal(fluid.liquid(log, line, zero).density, line.liquid_density)


def test_pressure_and_temperature_are_inverse(fluid: Refrigerant) -> None:
    temperature = np.linspace(226.0, 333.0, 200)
    back = fluid.dew_temperature(fluid.dew_pressure(temperature))
    assert np.abs(back - temperature).max() < 1e-9


# Saturation pressure [MPa] and heat of evaporation [kJ/kg] as handbooks print them, from
# memory; none where it is not remembered to four figures.
HANDBOOK = [
    ("R-22", 0.0, 0.4980, 205.0),
    ("R-22", 20.0, 0.9100, None),
    ("R-22", 40.0, 1.5335, None),
    ("R-32", 0.0, 0.8131, 315.3),
    ("R-32", 20.0, 1.4746, 280.8),
    ("R-32", 40.0, 2.4783, 237.1),
]


@pytest.mark.parametrize(("name", "celsius", "megapascal", "latent"), HANDBOOK)
def test_handbook_points(
    name: str, celsius: float, megapascal: float, latent: float | None
) -> None:
    fluid = refrigerant.load(name)
    pressure = float(fluid.dew_pressure(celsius + KELVIN))
    assert pressure == pytest.approx(megapascal * 1e6, rel=0.001)
    line = fluid.saturation(np.log(pressure))
    if latent is not None:
        found = line.vapour_enthalpy - line.liquid_enthalpy
        assert found == pytest.approx(latent * 1e3, rel=0.003)


def test_pressures_painted_on_gauges() -> None:
    """R-22 at 40, 100 and 120 °F [psig], from memory of pocket charts."""
    fluid = refrigerant.load("R-22")
    for fahrenheit, gauge in ((40.0, 68.6), (100.0, 195.9), (120.0, 259.9)):
        absolute = float(fluid.dew_pressure((fahrenheit + 459.67) / 1.8))
        assert (absolute - 101325.0) / 6894.757 == pytest.approx(gauge, abs=0.5)


def test_boiling_point_of_r22() -> None:
    """-40.8 °C at one atmosphere, from memory."""
    boiling = float(refrigerant.load("R-22").dew_temperature(101325.0))
    assert boiling - KELVIN == pytest.approx(-40.8, abs=0.05)


def test_dew_and_bubble_of_r454b_stand_apart_on_the_gauge() -> None:
    """By 5 to 6 psi at the 40 °F of a coil at work (common practice, no source)."""
    fluid = refrigerant.load("R-454B")
    coil = (40.0 + 459.67) / 1.8
    apart = float(fluid.bubble_pressure(coil) - fluid.dew_pressure(coil)) / 6894.757
    assert 5.0 < apart < 6.0


def test_safety_classes_and_blends() -> None:
    """Classes and compositions of ASHRAE Standard 34, from memory."""
    table = refrigerant.facts()
    assert refrigerant.known() == ("R-22", "R-32", "R-410A", "R-454B")
    assert {name: row.safety_class for name, row in table.items()} == {
        "R-22": "A1",
        "R-32": "A2L",
        "R-410A": "A1",
        "R-454B": "A2L",
    }
    assert [name for name, row in table.items() if row.is_zeotrope] == ["R-410A", "R-454B"]
    assert all(bool(row.blend) == row.is_zeotrope for row in table.values())
    with pytest.raises(dataclasses.FrozenInstanceError):
        table["R-32"].safety_class = "A1"  # type: ignore[misc]


def test_the_blend_is_the_one_that_was_built() -> None:
    """Mass shares by CoolProp's own composition."""
    state = CoolProp.CoolProp.AbstractState("HEOS", build.FLUIDS["R-454B"].key)
    assert state.fluid_names() == ["R32", "R1234yf"]
    assert np.allclose(state.get_mass_fractions(), [0.689, 0.311], atol=1e-4)
    assert "68.9 to 31.1" in refrigerant.facts()["R-454B"].blend


def test_every_known_refrigerant_has_a_recipe_and_a_table() -> None:
    assert set(refrigerant.known()) == set(build.FLUIDS)
    shipped = {
        item.name
        for item in files("simulator.properties").joinpath("tables").iterdir()
        if item.name.endswith(".npz")
    }
    assert shipped == {f"{name.replace('-', '').lower()}.npz" for name in build.FLUIDS}


def test_the_table_is_small_and_loads_fast(fluid: Refrigerant) -> None:
    shipped = files("simulator.properties").joinpath("tables")
    table = shipped.joinpath(f"{fluid.name.replace('-', '').lower()}.npz")
    assert len(table.read_bytes()) <= 200_000
    times = []
    for _ in range(20):
        refrigerant.load.cache_clear()
        started = time.process_time()  # by the clock a busy machine would fail it
        refrigerant.load(fluid.name)
        times.append(time.process_time() - started)
    assert min(times) < 0.010


def test_an_unknown_refrigerant_is_named() -> None:
    with pytest.raises(ValueError, match="R-999"):
        refrigerant.load("R-999")


def test_the_shipped_table_is_what_the_builder_makes(fluid: Refrigerant) -> None:
    reference = CoolProp.CoolProp.AbstractState("HEOS", build.FLUIDS[fluid.name].key)
    log = np.linspace(fluid.first, fluid.first + fluid.step * fluid.cells, 9)[1:-1]
    rows = build.saturation_rows(reference, log)
    line = np.array(fluid.saturation(log)).T
    assert not np.isnan(rows).any()
    assert np.abs(line / rows - 1.0)[:, :8].max() < 1e-4
