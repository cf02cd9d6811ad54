"""Moist air against PsychroLib and the handbook values of the table."""

import numpy as np
import psychrolib
import pytest

from simulator.properties import moist_air, saturated_air, water_vapour

PRESSURE = 101325.0


@pytest.fixture(autouse=True)
def _si_units() -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)


def grid() -> list[tuple[float, float]]:
    """Celsius and relative humidity over the range of houses, attics and coils."""
    return [
        (t, rh) for t in (10.0, 15.0, 20.0, 27.0, 35.0, 50.0, 60.0) for rh in (0.1, 0.4, 0.8, 1)
    ]


@pytest.mark.parametrize(("celsius", "humidity"), grid())
def test_psychrolib_agrees(celsius: float, humidity: float) -> None:
    kelvin = celsius + 273.15
    ratio = float(moist_air.humidity_ratio(kelvin, humidity, PRESSURE))
    assert ratio == pytest.approx(
        psychrolib.GetHumRatioFromRelHum(celsius, humidity, PRESSURE), rel=1e-4
    )
    assert float(moist_air.enthalpy(kelvin, ratio)) == pytest.approx(
        psychrolib.GetMoistAirEnthalpy(celsius, ratio), rel=1e-6
    )
    wet = float(moist_air.wet_bulb(kelvin, ratio, PRESSURE)) - 273.15
    assert wet == pytest.approx(
        psychrolib.GetTWetBulbFromHumRatio(celsius, ratio, PRESSURE), abs=0.005
    )
    dew = float(moist_air.dew_point(ratio, PRESSURE)) - 273.15
    assert dew == pytest.approx(
        psychrolib.GetTDewPointFromHumRatio(celsius, ratio, PRESSURE), abs=0.005
    )
    volume = psychrolib.GetMoistAirVolume(celsius, ratio, PRESSURE)
    assert 1.0 / float(moist_air.density(kelvin, ratio, PRESSURE)) == pytest.approx(
        volume, rel=1e-5
    )


def test_handbook_values(published: dict[str, dict[str, str]]) -> None:
    dry, wet = (80.0 + 459.67) / 1.8, (67.0 + 459.67) / 1.8
    ratio = float(moist_air.humidity_ratio_from_wet_bulb(dry, wet, PRESSURE))
    damp = float(moist_air.relative_humidity(dry, ratio, PRESSURE))
    # The handbook's zero is dry air at 0 °F.
    zero = float(moist_air.enthalpy((0.0 + 459.67) / 1.8, 0.0))
    warm = (86.0 + 459.67) / 1.8
    vapour = 0.02 * (1061.0 + 0.444 * 86.0) + 0.240 * 86.0
    shown = (float(moist_air.enthalpy(warm, 0.02)) - zero) / 2326.0
    # Both systems define vapour enthalpy from their own zero of liquid water.
    shown += 0.02 * (1061.0 - (2501000.0 + 1860.0 * (459.67 / 1.8 - 273.15)) / 2326.0)
    for row, value in (("P18", ratio * 7000.0), ("P20", damp * 100.0), ("P19", shown)):
        limits = published[row]
        assert float(limits["low"]) <= value <= float(limits["high"]), (row, value)
    assert shown == pytest.approx(vapour, rel=2e-3)


def test_saturated_enthalpy_and_back() -> None:
    kelvin = np.linspace(263.15, 313.15, 60)
    for pressure in (PRESSURE, 84000.0):
        back = saturated_air.temperature_at_saturated_enthalpy(
            saturated_air.saturated_enthalpy(kelvin, pressure), pressure
        )
        assert np.abs(back - kelvin).max() < 1e-6


def test_round_trips() -> None:
    kelvin, ratio = np.linspace(280.0, 330.0, 30), 0.011
    heat = moist_air.enthalpy(kelvin, ratio)
    assert np.allclose(moist_air.temperature_from_enthalpy(heat, ratio), kelvin)
    assert np.allclose(moist_air.humidity_ratio_from_enthalpy(kelvin, heat), ratio)


def test_saturation_over_ice() -> None:
    """ASHRAE Handbook, Fundamentals 2017, ch. 1, table 3: 103.2 Pa at -20 °C over ice."""
    assert float(water_vapour.saturation_pressure(253.15)) == pytest.approx(103.24, rel=2e-3)


def test_altitude_lowers_the_barometer() -> None:
    """ASHRAE Handbook, Fundamentals 2017, ch. 1, table 1: 84.556 kPa at 1,500 m."""
    assert float(moist_air.standard_pressure(1500.0)) == pytest.approx(84556.0, rel=1e-3)
