"""Charts of the test stand as data: the air's way, fan against ducts, where the cooling goes."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np

from simulator.plant import stacking, steady
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.properties import moist_air
from simulator.quantities.entered import BadEntry
from simulator.quantities.kinds import KINDS
from simulator.quantities.shown import show, to_display
from simulator.serve import bench_setting
from simulator.serve.bench_setting import Setting

# How hard the supply ducts are made, over what they are, to walk along the fan's curve.
SQUEEZED = (0.15, 0.4, 1.0, 2.0, 3.5, 6.0, 10.0)
HUMIDITIES = (1.0, 0.5)  # curves of relative humidity that are drawn [-]
AIR = ("grille", "air_handler_return", "coil_leaving", "supply_plenum")
Pair = tuple[Installation, Installation]


def stand_chart(setting: Setting, name: str, system: str) -> dict[str, Any]:
    """One chart.

    Parameters
    ----------
    setting : Setting
        Checked.
    name : str
        ``air``, ``fan`` or ``delivery``.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    dict
        Plain data in the technician's units, healthy and now.

    Raises
    ------
    BadEntry
        For a chart there is not.
    """
    if name not in CHARTS:
        raise BadEntry(f"chart must be {', '.join(CHARTS)}, not {name[:40]!r}.")
    pair = (
        bench_setting.healthy_installation(setting),
        bench_setting.installation_of(setting),
    )
    return CHARTS[name](pair, bench_setting.conditions_of(setting), system)


def _points(pair: Pair, around: Conditions) -> tuple[OperatingPoint, OperatingPoint]:
    both = steady.solve_many(list(pair), [around, around])
    return stacking.chosen(both, 0), stacking.chosen(both, 1)


def _air(pair: Pair, around: Conditions, system: str) -> dict[str, Any]:
    """The air from the grille to the plenum, over the saturation curve."""
    pressure = float(np.asarray(around.pressure))
    healthy, now = _points(pair, around)

    def way(point: OperatingPoint) -> list[list[float]]:
        return [
            [
                _shown(float(getattr(point, f"{place}_temperature")), "temperature", system),
                _shown(float(getattr(point, f"{place}_humidity_ratio")), "humidity_ratio", system),
            ]
            for place in AIR
        ]

    ways = [way(healthy), way(now)]
    reach = [x for points in ways for x, _ in points]
    cold, warm = min(reach), max(reach)
    return {
        "x": {"name": "Dry bulb", "unit": _unit("temperature", system)},
        "y": {"name": "Moisture", "unit": _unit("humidity_ratio", system)},
        "curves": [_humid(float(cold), float(warm), h, pressure, system) for h in HUMIDITIES],
        "healthy": ways[0],
        "now": ways[1],
        "places": ["return grille", "air handler return", "behind the coil", "supply plenum"],
    }


def _humid(
    cold: float, warm: float, humidity: float, pressure: float, system: str
) -> dict[str, Any]:
    """One curve of relative humidity, a little beyond the air's own reach."""
    wide = warm - cold
    points = []
    for shown in np.linspace(cold - 0.25 * wide, warm + 0.15 * wide, 33):
        kelvin = _back(float(shown), "temperature", system)
        water = float(moist_air.humidity_ratio(kelvin, humidity, pressure))
        points.append([float(shown), _shown(water, "humidity_ratio", system)])
    return {"label": f"{humidity:.0%}", "points": points}


def _fan(pair: Pair, around: Conditions, system: str) -> dict[str, Any]:
    """What the blower gives against what the ducts ask, crossing where the system runs."""

    def squeezed(one: Installation, factor: float) -> Installation:
        ducts = one.ducts
        return replace(one, ducts=replace(ducts, supply_drop=ducts.supply_drop * factor))

    many = [squeezed(one, factor) for one in pair for factor in SQUEEZED]
    found = steady.solve_many(many, [around] * len(many))
    flow = np.asarray(found.airflow, dtype=float)
    static = np.asarray(found.total_external_static, dtype=float)
    count = len(SQUEEZED)

    def line(flows: Any, statics: Any) -> list[list[float]]:
        return [
            [_shown(float(q), "airflow", system), _shown(float(p), "static_pressure", system)]
            for q, p in zip(flows, statics, strict=True)
        ]

    def ducts(at: int) -> list[list[float]]:
        shares = np.linspace(0.0, 1.25, 14)
        return line(shares * flow[at], shares**2 * static[at])

    here = [SQUEEZED.index(1.0) + start for start in (0, count)]
    return {
        "x": {"name": "Airflow", "unit": _unit("airflow", system)},
        "y": {"name": "Total external static", "unit": _unit("static_pressure", system)},
        "fan": [line(flow[s : s + count], static[s : s + count]) for s in (0, count)],
        "ducts": [ducts(at) for at in here],
        "cross": [
            {
                "at": line([flow[at]], [static[at]])[0],
                "text": f"{show(flow[at], 'airflow', system)} at "
                f"{show(static[at], 'static_pressure', system)}",
            }
            for at in here
        ],
    }


def _delivery(pair: Pair, around: Conditions, system: str) -> dict[str, Any]:
    """What the coil gives the air, what is lost on the way, what reaches the rooms."""

    def parts(point: OperatingPoint) -> dict[str, Any]:
        coil, rooms = float(point.gross_capacity), float(point.delivered_capacity)
        leaked = float(point.supply_leak_airflow) / max(float(point.airflow), 1e-9)
        grille, plenum = (
            float(
                moist_air.enthalpy(
                    getattr(point, f"{place}_temperature"),
                    getattr(point, f"{place}_humidity_ratio"),
                )
            )
            for place in ("grille", "supply_plenum")
        )
        blown = abs(leaked * float(point.air_mass_flow) * (grille - plenum))
        blown = min(blown, max(coil - rooms, 0.0))
        each = {"coil": coil, "blown": blown, "walls": coil - rooms - blown, "rooms": rooms}
        return {
            name: {"size": watts, "text": str(show(watts, "heat_rate", system))}
            for name, watts in each.items()
        }

    healthy, now = _points(pair, around)
    return {"healthy": parts(healthy), "now": parts(now), "mode": str(now.mode)}


def _shown(value: float, kind: str, system: str) -> float:
    return float(to_display(value, kind, system))


def _back(value: float, kind: str, system: str) -> float:
    display = KINDS[kind].us if system == "us" else KINDS[kind].metric
    return value * display.scale + display.offset


def _unit(kind: str, system: str) -> str:
    return (KINDS[kind].us if system == "us" else KINDS[kind].metric).unit


CHARTS: dict[str, Callable[[Pair, Conditions, str], dict[str, Any]]] = {
    "air": _air,
    "fan": _fan,
    "delivery": _delivery,
}
"""Charts by name; the cycle comes with every answer and is not among them."""
