"""A restricted suction line: where its pressure is lost, and what superheat makes of it."""

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

from simulator.plant import steady
from tests.plant.stand import installed, weather, winter

PSI = 6894.757
METERING = pytest.mark.parametrize("metering", ["txv", "orifice"])


def saturated(pressure: float) -> float:
    """Dew point of R-410A by CoolProp. [K]"""
    return float(PropsSI("T", "P", pressure, "Q", 1, "R410A"))


@METERING
@pytest.mark.parametrize("lost", [0.0, 10.0])
def test_superheat_at_the_port_is_that_of_a_throttle(metering: str, lost: float) -> None:
    """First law: enthalpy is kept, but for what the pipe takes up; by CoolProp, within 0.3 K."""
    point = steady.solve(installed(metering, suction_restriction=lost), weather())
    boils = float(PropsSI("P", "T", float(point.evaporating_temperature), "Q", 1, "R410A"))
    leaving = PropsSI("H", "T", point.evaporator_outlet_temperature, "P", boils, "R410A")
    arriving = leaving + point.suction_line_gain / point.refrigerant_flow
    warm = PropsSI("T", "H", arriving, "P", point.suction_pressure, "R410A")
    assert point.superheat == pytest.approx(warm - saturated(point.suction_pressure), abs=0.3)


@METERING
def test_the_gauge_stands_behind_the_restriction(metering: str) -> None:
    """Mass balance: less is pumped by thinner gas, so the coil boils warmer, the port colder."""
    sound, held = (
        steady.solve(installed(metering, suction_restriction=lost), weather())
        for lost in (0.0, 10.0)
    )
    drop = saturated(sound.suction_pressure) - saturated(held.suction_pressure)
    assert held.evaporating_temperature > sound.evaporating_temperature + 0.3
    assert drop > 0.6
    # Colder behind by 2 % a degree Fahrenheit at most, and the coil takes part of it back.
    behind = held.evaporating_temperature - saturated(held.suction_pressure)
    assert 0.01 < 1.0 - held.gross_capacity / sound.gross_capacity < 0.02 * 1.8 * behind


def test_a_fixed_orifice_floods_a_coil_that_is_pumped_less() -> None:
    """Heat balance: the device feeds on as before, the warmer coil takes less heat."""
    points = [
        steady.solve(installed("orifice", suction_restriction=lost), weather())
        for lost in (0.0, 5.0, 10.0, 15.0)
    ]
    assert (np.diff([point.coil_superheat for point in points]) < -0.5).all()
    assert (np.diff([point.superheat for point in points]) < -0.5).all()
    assert points[-1].refrigerant_flow == pytest.approx(points[0].refrigerant_flow, rel=0.02)


@METERING
def test_while_heating_the_same_pipe_carries_hot_gas(metering: str) -> None:
    """By where it lies: the port outdoors reads more, the boiling coil does not feel it."""
    sound, held = (
        steady.solve(installed(metering, suction_restriction=lost), winter())
        for lost in (0.0, 25.0)
    )
    assert held.superheat == pytest.approx(sound.superheat, abs=0.2)
    assert 3.0 * PSI < held.vapour_port_pressure - sound.vapour_port_pressure < 25.0 * PSI
    assert held.outdoor_power > 1.005 * sound.outdoor_power
