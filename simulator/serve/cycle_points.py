"""The corners of the refrigeration cycle, for the pressure-enthalpy chart."""

from functools import lru_cache
from typing import Any

import numpy as np

from simulator.plant.operating_point import OperatingPoint
from simulator.properties import refrigerant
from simulator.properties.refrigerant import Refrigerant
from simulator.quantities.values import Array


def dome(fluid: Refrigerant, points: int = 60) -> tuple[Array, Array]:
    """Both saturation lines, liquid side up and vapour side down.

    Parameters
    ----------
    fluid : Refrigerant
        Its tables.
    points : int
        On each side.

    Returns
    -------
    tuple
        Enthalpies [J/kg] and absolute pressures [Pa], each of shape (2 points,).
    """
    log = np.linspace(np.log(1.02 * fluid.lowest_pressure), np.log(fluid.highest_pressure), points)
    line = fluid.saturation(log)
    enthalpy = np.concatenate(
        [np.asarray(line.liquid_enthalpy), np.asarray(line.vapour_enthalpy)[::-1]]
    )
    return enthalpy, np.exp(np.concatenate([log, log[::-1]]))


def corners(fluid: Refrigerant, point: OperatingPoint) -> tuple[Array, Array]:
    """Five states in order of flow, from the boiling coil's outlet, whichever coil that is.

    Parameters
    ----------
    fluid : Refrigerant
        Its tables.
    point : OperatingPoint
        Running, floats.

    Returns
    -------
    tuple
        Enthalpies [J/kg] and absolute pressures [Pa], each of shape (5,).
    """
    flow = float(point.refrigerant_flow)
    low = float(fluid.dew_pressure(point.evaporating_temperature))
    high = float(fluid.bubble_pressure(point.condensing_temperature))
    liquid = liquid_enthalpy(fluid, high, float(point.liquid_line_temperature))
    out = liquid + float(point.evaporator_heat) / flow
    suction = out + float(point.suction_line_gain) / flow
    gas_work = float(point.compressor_power) - float(point.compressor_shell_loss)
    hot = suction + gas_work / flow
    enthalpy = np.array([out, suction, hot, liquid, liquid])
    pressure = np.array(
        [low, float(point.suction_pressure), float(point.discharge_pressure), high, low]
    )
    return enthalpy, pressure


@lru_cache
def _dome(fluid: str, system: str) -> tuple[tuple[float, float], ...]:
    enthalpy, pressure = dome(refrigerant.load(fluid))
    return displayed(enthalpy, pressure, system)


def chart(
    points: tuple[OperatingPoint, OperatingPoint], fluids: tuple[str, str], system: str
) -> dict[str, Any]:
    """Everything the chart paints.

    Parameters
    ----------
    points : tuple of OperatingPoint
        As it is, and healthy.
    fluids : tuple of str
        What is in either circuit.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    dict
        Plain data; a cycle that stands has no points.
    """
    now, ghost = (
        displayed(*corners(refrigerant.load(fluid), point), system)
        if point.state == "running"
        else ()
        for point, fluid in zip(points, fluids, strict=True)
    )
    state = "running" if now else "stands"
    return {
        "dome": _dome(fluids[0], system),
        "healthy": ghost,
        "now": now or None,
        "mode": points[0].mode,
        "differs": points[0] is not points[1],
        "h_unit": "Btu/lb" if system == "us" else "kJ/kg",
        "p_unit": "psia" if system == "us" else "kPa absolute",
        "summary": (
            f"Pressure over enthalpy of {fluids[0]}: the cycle {state}. Values in the table."
        ),
    }


def displayed(enthalpy: Array, pressure: Array, system: str) -> tuple[tuple[float, float], ...]:
    """Points in the units of the chart.

    Parameters
    ----------
    enthalpy : array
        [J/kg]
    pressure : array
        Absolute. [Pa]
    system : str
        ``us`` or ``si``.

    Returns
    -------
    tuple
        Pairs in Btu/lb and psi, or kJ/kg and kPa.
    """
    per_mass = 2326.0 if system == "us" else 1000.0
    per_area = 6894.757293168 if system == "us" else 1000.0
    return tuple(
        (round(float(h) / per_mass, 2), round(float(p) / per_area, 2))
        for h, p in zip(enthalpy, pressure, strict=True)
    )


def liquid_enthalpy(fluid: Refrigerant, pressure: float, temperature: float) -> float:
    """Enthalpy of subcooled liquid from its temperature.

    Parameters
    ----------
    fluid : Refrigerant
        Its tables.
    pressure : float
        Absolute. [Pa]
    temperature : float
        [K]

    Returns
    -------
    float
        [J/kg]
    """
    log = np.log(pressure)
    line = fluid.saturation(log)
    below = 0.0
    for _ in range(6):
        reached = float(fluid.liquid(log, line, below).temperature)
        below = max(below + (reached - temperature) * float(line.liquid_heat_capacity), 0.0)
    return float(line.liquid_enthalpy) - below
