"""Charts of the air: its way over the saturation curve, and the fan against the ducts."""

from typing import Any

import numpy as np

from simulator.components import blower
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.properties import moist_air
from simulator.quantities.shown import display, from_display, printed
from simulator.serve.stand_page.plot import axis, in_units, line, mark, points, table, told

Pair = tuple[OperatingPoint, OperatingPoint]  # as it is, and healthy
HUMIDITIES = (1.0, 0.5)  # curves of relative humidity that are drawn [-]
PLACES = (
    ("grille", "return grille", "below"),
    ("air_handler_return", "entering the coil", "above"),
    ("coil_leaving", "off the coil", "above"),
    ("supply_plenum", "supply plenum", "below"),
)
SKY = {"cooling": 1.35, "heating": 2.2}  # top of the chart over the wettest air [-]
SQUEEZED = np.geomspace(0.12, 9.0, 15)  # resistance over what it is, along the fan's curve
DUCTS_LABEL = 10  # of 21 points along the duct curve
BEYOND = 1.18  # how far past its point a duct curve is drawn [-]


def air_chart(pair: Pair, system: str) -> dict[str, Any]:
    """The air from the grille to the plenum, over the saturation curve of the barometer.

    Parameters
    ----------
    pair : tuple of OperatingPoint
        As it is, and healthy.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    dict
        Plain data.
    """
    ways = [_way(point, system) for point in pair]
    (low, high), (bottom, top) = _air_ends(ways, SKY[pair[0].mode])
    curves = [
        _above(_below(_curve(h, (low, high), float(pair[0].pressure), system), top), bottom)
        for h in HUMIDITIES
    ]
    temperature, moisture = (
        display(kind, system).unit for kind in ("temperature", "humidity_ratio")
    )
    differs = ways[0] != ways[1]
    return {
        "kind": "plot",
        "title": "Psychrometric chart",
        "summary": "The air by dry bulb and moisture"
        + ": "
        + "; ".join(
            f"{name} {printed(x, 1)} {temperature} and {printed(y)} {moisture}"
            for (_, name, _), (x, y) in zip(PLACES, ways[0], strict=True)
        )
        + ".",
        "x": axis("Dry bulb", temperature, (low, high)),
        "y": axis("Moisture", moisture, (bottom, top)),
        "lines": [
            line("guide", curves[0], "saturated"),
            line("guide", curves[1], "humidity 50 %", thin=True),
            *([line("healthy", ways[1], "healthy", at=1)] if differs else []),
            line("now", ways[0]),
        ],
        "marks": [
            *(
                mark("now", at, f"{name} {printed(at[0])} {temperature}", side)
                for (_, name, side), at in zip(PLACES, ways[0], strict=True)
            ),
            *(mark("healthy", at) for at in (ways[1] if differs else [])),
        ],
        "tables": [_air_table(ways, temperature, moisture)],
    }


def _air_ends(
    ways: list[list[list[float]]], sky: float
) -> tuple[tuple[float, float], tuple[float, float]]:
    """Ends of both axes, with room for words around the air's way."""
    across = [x for way in ways for x, _ in way]
    moist = [y for way in ways for _, y in way]
    room = 0.12 * (max(across) - min(across)) + 2.0
    top = sky * max(moist)
    bottom = max(0.0, 0.6 * min(moist) - 0.2 * (top - max(moist)))
    return (min(across) - room, max(across) + 2.5 * room), (bottom, top)


def _air_table(ways: list[list[list[float]]], temperature: str, moisture: str) -> dict[str, Any]:
    heads = (
        *("Place", f"Dry bulb, {temperature}", f"Moisture, {moisture}"),
        *(f"Healthy, {temperature}", f"Healthy, {moisture}"),
    )
    rows = [
        (name, *(printed(value, 1) for value in (*now, *healthy)))
        for (_, name, _), now, healthy in zip(PLACES, *ways, strict=True)
    ]
    return table("Psychrometric chart", heads, rows)


def _way(point: OperatingPoint, system: str) -> list[list[float]]:
    return points(
        [
            float(in_units(getattr(point, f"{p}_temperature"), "temperature", system))
            for p, *_ in PLACES
        ],
        [
            float(in_units(getattr(point, f"{p}_humidity_ratio"), "humidity_ratio", system))
            for p, *_ in PLACES
        ],
    )


def _curve(
    humidity: float, ends: tuple[float, float], pressure: float, system: str
) -> list[list[float]]:
    """Moisture of air of one relative humidity, from end to end."""
    shown = np.linspace(*ends, 41)
    kelvin = from_display(shown, "temperature", system)
    water = moist_air.humidity_ratio(kelvin, humidity, pressure)
    return points(shown, in_units(water, "humidity_ratio", system))


def _below(curve: list[list[float]], top: float) -> list[list[float]]:
    """The curve up to the chart's edge, cut where it crosses it."""
    inside = [pair for pair in curve if pair[1] <= top]
    if 0 < len(inside) < len(curve):
        (x0, y0), (x1, y1) = inside[-1], curve[len(inside)]
        inside.append([x0 + (x1 - x0) * (top - y0) / (y1 - y0), top])
    return inside


def _above(curve: list[list[float]], bottom: float) -> list[list[float]]:
    return [pair for pair in curve if pair[1] >= bottom]


def fan_chart(pair: Pair, built: tuple[Installation, Installation], system: str) -> dict[str, Any]:
    """What the air handler gives against what filter and ducts ask; they cross where it runs.

    The coil is inside the air handler, so its drop is the fan's to overcome and not the
    ducts': total external static is read from its inlet to the supply plenum.

    Parameters
    ----------
    pair : tuple of OperatingPoint
        As it is, and healthy.
    built : tuple of Installation
        The same two.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    dict
        Plain data.

    References
    ----------
    .. [1] ASHRAE Handbook, HVAC Systems and Equipment, Fans: system curves.
    """
    sides = [_fan_side(one, point, system) for one, point in zip(built, pair, strict=True)]
    now, healthy = sides
    differs = now["at"] != healthy["at"]
    shown = sides if differs else sides[:1]
    most = 1.12 * max(side["at"][0] for side in shown) * BEYOND
    high = 1.9 * max(side["at"][1] for side in shown)
    said = [_runs(point, system) for point in pair]
    fine = told(float(pair[1].airflow), "airflow", system)
    air, static = (display(kind, system) for kind in ("airflow", "static_pressure"))
    return {
        "kind": "plot",
        "title": "Airflow against static",
        "summary": f"The blower meets filter and ducts at {said[0]}; healthy, at {said[1]}.",
        "x": axis("Airflow", air.unit, (0.0, most)),
        "y": axis("Total external static", static.unit, (0.0, high)),
        "lines": [
            *(_fan_lines("healthy", healthy, (most, high)) if differs else []),
            *_fan_lines("now", now, (most, high)),
        ],
        "marks": [
            mark("now", now["at"], said[0], "right"),
            *([mark("healthy", healthy["at"], f"healthy {fine}", "below")] if differs else []),
        ],
        "tables": [
            table(
                "Where they cross",
                ("", f"Airflow, {air.unit}", f"Total external static, {static.unit}"),
                [
                    (name, printed(side["at"][0]), printed(side["at"][1], static.decimals))
                    for name, side in (("now", now), ("healthy", healthy))
                ],
            )
        ],
    }


def _fan_lines(role: str, side: dict[str, Any], ends: tuple[float, float]) -> list[dict[str, Any]]:
    names = ("blower", "filter and ducts") if role == "now" else ("", "")
    return [
        line(role, _inside(side["fan"], *ends), names[0]),
        line(role, _inside(side["ducts"], *ends), names[1], at=DUCTS_LABEL),
    ]


def _runs(point: OperatingPoint, system: str) -> str:
    return (
        f"{told(float(point.airflow), 'airflow', system)} at "
        f"{told(float(point.total_external_static), 'static_pressure', system)}"
    )


def _fan_side(built: Installation, point: OperatingPoint, system: str) -> dict[str, Any]:
    """Both curves and their crossing, from the blower itself and the point it runs at."""
    flow, static = float(point.airflow), float(point.total_external_static)
    square = max(static, 1e-6) / flow**2
    coil = float(point.coil_drop) / flow**1.8
    density = float(point.air_mass_flow) / flow
    found = blower.run_against(built.unit.blower, square * SQUEEZED, coil, density)
    drawn = np.asarray(found.airflow, dtype=float)
    asked = np.linspace(0.0, BEYOND * flow, 21)

    def pairs(flows: Any, statics: Any) -> list[list[float]]:
        return points(
            in_units(flows, "airflow", system), in_units(statics, "static_pressure", system)
        )

    return {
        "fan": pairs(drawn, square * SQUEEZED * drawn**2),
        "ducts": pairs(asked, square * asked**2),
        "at": pairs([flow], [static])[0],
    }


def _inside(curve: list[list[float]], most: float, high: float) -> list[list[float]]:
    return [pair for pair in curve if pair[0] <= most and pair[1] <= high]
