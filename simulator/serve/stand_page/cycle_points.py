"""The corners of the refrigeration cycle, for the pressure-enthalpy chart."""

from functools import lru_cache
from typing import Any

import numpy as np

from simulator.plant.operating_point import OperatingPoint
from simulator.properties import refrigerant
from simulator.properties.refrigerant import Refrigerant
from simulator.quantities.shown import printed
from simulator.quantities.values import Array
from simulator.serve.stand_page.plot import axis, line, mark, table, told

TITLE = "Pressure and enthalpy"
PRESSURE_TICKS = (20.0, 50.0, 100.0, 200.0, 400.0, 800.0, 2000.0, 4000.0)
# In order of flow, from the outlet of the coil that boils.
PLACES = {
    "cooling": (
        *("leaving the indoor coil", "entering the compressor", "leaving the compressor"),
        *("leaving the outdoor coil", "entering the indoor coil"),
    ),
    "heating": (
        *("leaving the outdoor coil", "entering the compressor", "leaving the compressor"),
        *("leaving the indoor coil", "entering the outdoor coil"),
    ),
}


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
    cycles = [
        displayed(*corners(refrigerant.load(fluid), point), system)
        if point.state == "running"
        else ()
        for point, fluid in zip(points, fluids, strict=True)
    ]
    now, ghost = cycles
    curve = _dome(fluids[0], system)
    differs = points[0] is not points[1] and now != ghost
    units = ("Btu/lb", "psia") if system == "us" else ("kJ/kg", "kPa absolute")
    seen = [*now, *ghost] or list(curve)
    foot = min(p for _, p in seen) * 0.6
    top = max(p for _, p in seen) * 1.7  # room for words over the cycle
    inside = [pair for pair in curve if foot <= pair[1] <= top]
    across = [h for h, _ in [*inside, *seen]]
    half = len(curve) // 2
    return {
        "kind": "plot",
        "title": TITLE,
        "summary": _told(points, fluids, system),
        "x": axis("Enthalpy", units[0], _wider(min(across), max(across))),
        "y": axis("Pressure", units[1], (foot, top), ticks=PRESSURE_TICKS, log=True),
        "lines": [
            line(
                "guide", [list(p) for p in curve[:half] if p[1] >= foot], "saturated liquid", at=0
            ),
            line("guide", [list(p) for p in curve[half:] if p[1] >= foot], "saturated vapor"),
            line("healthy", [list(p) for p in ghost], closed=True),
            line("now", [list(p) for p in now], closed=True),
        ],
        "marks": [
            *(_marks("now", points[0], now, system) if now else []),
            *(_marks("healthy", points[1], ghost, system) if ghost and differs else []),
        ],
        "tables": [
            _table(name, cycle, PLACES[points[0].mode], units)
            for name, cycle in (("now", now), ("healthy", ghost))
            if cycle
        ],
    }


def _table(
    name: str,
    cycle: tuple[tuple[float, float], ...],
    places: tuple[str, ...],
    units: tuple[str, str],
) -> dict[str, Any]:
    return table(
        name,
        ("State", f"Pressure, {units[1]}", f"Enthalpy, {units[0]}"),
        [(place, printed(p), printed(h, 1)) for place, (h, p) in zip(places, cycle, strict=True)],
    )


def _wider(low: float, high: float) -> tuple[float, float]:
    return low, high + 0.03 * (high - low)


def _marks(
    role: str, point: OperatingPoint, cycle: tuple[tuple[float, float], ...], system: str
) -> list[dict[str, Any]]:
    """The two temperatures at which it boils and condenses, printed on their lines."""
    _, _, hot, liquid, mixture = cycle
    boils = told(float(point.evaporating_temperature), "temperature", system, 0)
    condenses = told(float(point.condensing_temperature), "temperature", system, 0)
    high = ((hot[0] + liquid[0]) / 2.0, liquid[1])
    low = ((cycle[0][0] + mixture[0]) / 2.0, mixture[1])
    word = "" if role == "now" else "healthy "
    return [
        mark(role, high, f"{word}condenses at {condenses}", "above"),
        mark(role, low, f"{word}boils at {boils}", "below"),
    ]


def _told(
    points: tuple[OperatingPoint, OperatingPoint], fluids: tuple[str, str], system: str
) -> str:
    now = points[0]
    begun = f"Pressure over enthalpy of {fluids[0]}" + ": "
    if now.state != "running":
        return f"{begun}the cycle stands."
    pairs = [
        (told(float(p.evaporating_temperature), "temperature", system, 0),
         told(float(p.condensing_temperature), "temperature", system, 0))
        for p in points
    ]  # fmt: skip
    said = f"{begun}it boils at {pairs[0][0]} and condenses at {pairs[0][1]}"
    if points[1].state != "running":
        return f"{said}; the healthy cycle stands."
    return f"{said}; healthy, at {pairs[1][0]} and {pairs[1][1]}."


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
