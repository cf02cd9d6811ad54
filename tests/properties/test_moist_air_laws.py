"""Moist air: round trips, limits and altitude; PsychroLib where a printed value is wanted."""

import numpy as np
import psychrolib
import pytest

from simulator.properties import moist_air, water_vapour

SEA_LEVEL, MILE_HIGH = 101325.0, 83437.0  # [Pa]
TEMPERATURE, HUMIDITY = np.meshgrid(np.linspace(283.0, 330.0, 30), np.linspace(0.05, 1.0, 30))


@pytest.fixture(autouse=True)
def _si_units() -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)


@pytest.mark.parametrize("pressure", [SEA_LEVEL, MILE_HIGH])
def test_wet_bulb_there_and_back(pressure: float) -> None:
    ratio = moist_air.humidity_ratio(TEMPERATURE, HUMIDITY, pressure)
    wet = moist_air.wet_bulb(TEMPERATURE, ratio, pressure)
    back = moist_air.humidity_ratio_from_wet_bulb(TEMPERATURE, wet, pressure)
    above_freezing = wet > 273.16
    assert above_freezing.mean() > 0.9
    assert np.abs(back - ratio)[above_freezing].max() < 1e-10


@pytest.mark.parametrize("pressure", [SEA_LEVEL, MILE_HIGH])
def test_relative_humidity_there_and_back(pressure: float) -> None:
    ratio = moist_air.humidity_ratio(TEMPERATURE, HUMIDITY, pressure)
    assert np.allclose(
        moist_air.relative_humidity(TEMPERATURE, ratio, pressure), HUMIDITY, rtol=1e-12
    )


@pytest.mark.parametrize("pressure", [SEA_LEVEL, MILE_HIGH])
def test_dew_point_below_wet_bulb_below_dry_bulb(pressure: float) -> None:
    ratio = moist_air.humidity_ratio(TEMPERATURE, HUMIDITY, pressure)
    wet = moist_air.wet_bulb(TEMPERATURE, ratio, pressure)
    dew = moist_air.dew_point(ratio, pressure)
    assert np.all(dew <= wet + 1e-6)
    assert np.all(wet <= TEMPERATURE + 1e-9)


@pytest.mark.parametrize("pressure", [SEA_LEVEL, MILE_HIGH])
def test_saturated_air_has_one_temperature(pressure: float) -> None:
    kelvin = np.linspace(275.0, 325.0, 40)
    ratio = moist_air.saturated_humidity_ratio(kelvin, pressure)
    assert np.allclose(moist_air.wet_bulb(kelvin, ratio, pressure), kelvin, atol=1e-6)
    assert np.allclose(moist_air.dew_point(ratio, pressure), kelvin, atol=1e-5)


@pytest.mark.parametrize("celsius", [10.0, 20.0, 30.0, 45.0])
@pytest.mark.parametrize("humidity", [0.3, 0.6, 0.9])
def test_psychrolib_agrees_at_altitude(celsius: float, humidity: float) -> None:
    ratio = psychrolib.GetHumRatioFromRelHum(celsius, humidity, MILE_HIGH)
    kelvin = celsius + 273.15
    assert float(moist_air.humidity_ratio(kelvin, humidity, MILE_HIGH)) == pytest.approx(
        ratio, rel=1e-4
    )
    wet = psychrolib.GetTWetBulbFromHumRatio(celsius, ratio, MILE_HIGH)
    assert float(moist_air.wet_bulb(kelvin, ratio, MILE_HIGH)) - 273.15 == pytest.approx(
        wet, abs=0.005
    )
    # The same wet bulb into both: PsychroLib searches its own only to 0.001 °C.
    assert float(moist_air.humidity_ratio_from_wet_bulb(kelvin, wet + 273.15, MILE_HIGH)) == (
        pytest.approx(psychrolib.GetHumRatioFromTWetBulb(celsius, wet, MILE_HIGH), rel=1e-4)
    )


def test_psychrolib_agrees_on_saturation_over_water_and_ice() -> None:
    for celsius in (-25.0, -10.0, -1.0, 1.0, 12.0, 27.0, 40.0, 60.0):
        assert float(water_vapour.saturation_pressure(celsius + 273.15)) == pytest.approx(
            psychrolib.GetSatVapPres(celsius), rel=1e-5
        )


def test_water_and_ice_meet_at_the_triple_point() -> None:
    below, above = water_vapour.saturation_pressure(np.array([273.16 - 1e-6, 273.16 + 1e-6]))
    assert below == pytest.approx(above, rel=2e-4)


def test_saturation_follows_clausius_and_clapeyron() -> None:
    """d ln p / dT is latent heat over gas constant and T², ideal vapour, 0 to 40 °C."""
    kelvin = np.linspace(274.0, 313.0, 40)
    step = 0.01
    slope = np.log(
        water_vapour.saturation_pressure(kelvin + step)
        / water_vapour.saturation_pressure(kelvin - step)
    ) / (2.0 * step)
    latent = 2501000.0 - 2360.0 * (kelvin - 273.15)  # vapour less liquid, at the handbook's zeros
    gas = moist_air.DRY_GAS_CONSTANT / moist_air.MASS_RATIO
    assert np.abs(slope * gas * kelvin**2 / latent - 1.0).max() < 0.005


def test_mixing_keeps_water_and_heat() -> None:
    """Two streams mixed by mass lie on a line; the mixture's temperature follows from heat."""
    share = np.linspace(0.0, 1.0, 11)
    ratio = (1.0 - share) * 0.0095 + share * 0.012
    heat = (1.0 - share) * moist_air.enthalpy(297.0, 0.0095) + share * moist_air.enthalpy(
        322.0, 0.012
    )
    mixed = moist_air.temperature_from_enthalpy(heat, ratio)
    assert mixed[0] == pytest.approx(297.0)
    assert mixed[-1] == pytest.approx(322.0)
    assert np.all(np.diff(mixed) > 0.0)
    capacity = moist_air.heat_capacity(ratio)
    by_capacity = (
        (1.0 - share) * moist_air.heat_capacity(0.0095) * 297.0
        + share * moist_air.heat_capacity(0.012) * 322.0
    ) / capacity
    assert np.abs(mixed - by_capacity).max() < 1e-6


def test_thin_air_is_lighter_and_damp_air_too() -> None:
    dry, damp = moist_air.density(300.0, np.array([0.0, 0.02]), SEA_LEVEL)
    assert damp < dry
    assert float(moist_air.density(300.0, 0.0, MILE_HIGH)) / dry == pytest.approx(
        MILE_HIGH / SEA_LEVEL
    )
