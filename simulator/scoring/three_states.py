"""The same house healthy, as found and as left, settled in the same weather."""

from collections.abc import Callable
from typing import Any

from simulator.calls.site import Acts, Site
from simulator.plant import energy, steady
from simulator.plant.energy import Day
from simulator.plant.operating_point import OperatingPoint
from simulator.quantities.shown import show

Value = Callable[[OperatingPoint], float]


def _field(name: str) -> Value:
    return lambda point: float(getattr(point, name))


def _gauge(name: str) -> Value:
    return lambda point: float(getattr(point, name)) - float(point.pressure)


ROWS: tuple[tuple[str, str, Value], ...] = (
    ("Superheat", "temperature_difference", _field("superheat")),
    ("Subcooling", "temperature_difference", _field("subcooling")),
    ("Suction pressure", "gauge_pressure", _gauge("suction_pressure")),
    ("Liquid pressure", "gauge_pressure", _gauge("liquid_pressure")),
    ("Amps of the outdoor unit", "current", _field("outdoor_current")),
    ("Amps of the air handler", "current", _field("air_handler_current")),
    ("Airflow through the coil", "airflow", _field("airflow")),
    ("Sum of the registers", "airflow", _field("register_airflow")),
    ("Total external static", "static_pressure", _field("total_external_static")),
    ("Filter drop", "static_pressure", _field("filter_drop")),
    (
        "Return gain",
        "temperature_difference",
        lambda p: float(p.air_handler_return_temperature) - float(p.grille_temperature),
    ),
    (
        "Split at the air handler",
        "temperature_difference",
        lambda p: float(p.air_handler_return_temperature) - float(p.supply_plenum_temperature),
    ),
    ("House pressure", "house_pressure", _field("house_pressure")),
    ("Cooling at the coil", "heat_rate", _field("gross_capacity")),
    ("Cooling that reaches the rooms", "heat_rate", _field("delivered_capacity")),
)
# Outside these a reading is marked: what a good tool tells from healthy; chosen.
BAND = 0.05  # of the healthy value [-]
BANDS = {"temperature_difference": 1.1, "house_pressure": 0.5}  # 2 °F, and half a pascal, in SI
# The same while heating; what has no entry keeps its name.
WHILE_HEATING = {
    "Split at the air handler": "Rise at the air handler",
    "Cooling at the coil": "Heat at the coil",
    "Cooling that reaches the rooms": "Heat that reaches the rooms",
    "Warmest the rooms get": "Coldest the rooms get",
    "Cooling costs, a month of such days": "Heating costs, a month of such days",
}


def _named(name: str, mode: str) -> str:
    return WHILE_HEATING.get(name, name) if mode == "heating" else name


def mark(value: float, healthy: float, kind: str) -> str:
    """Whether a settled reading stands outside the healthy band.

    Parameters
    ----------
    value, healthy : float
        In SI. [-]
    kind : str
        Of quantity.

    Returns
    -------
    str
        ``high``, ``low`` or nothing, by size whatever its sign.
    """
    apart = abs(value) - abs(healthy)
    band = BANDS.get(kind, BAND * abs(healthy))
    if kind == "house_pressure":
        apart = value - healthy
    return "" if abs(apart) <= band else "high" if apart > 0.0 else "low"


def before_after(site: Site, acts: Acts, system: str) -> list[dict[str, Any]]:
    """Settled readings in three states.

    Parameters
    ----------
    site : Site
        With the key.
    acts : tuple
        Repairs of the visit.
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    list
        One row a reading.
    """
    states = [site.healthy(), site.installation(), site.installation(acts)]
    # The hour of arrival, so that the three differ in nothing but the installation.
    held = site.conditions(0.0)
    points = [steady.solve(state, held) for state in states]
    rows = []
    for name, kind, value in ROWS:
        sign = -1.0 if _named(name, site.call.mode).startswith("Rise") else 1.0
        shown = [show(sign * value(point), kind, system) for point in points]
        rows.append(
            {
                "name": _named(name, site.call.mode),
                "unit": shown[0].unit,
                "healthy": shown[0].text,
                "found": shown[1].text,
                "left": shown[2].text,
                "found_mark": mark(value(points[1]), value(points[0]), kind),
                "left_mark": mark(value(points[2]), value(points[0]), kind),
            }
        )
    return rows


def bill(site: Site, acts: Acts, system: str) -> list[dict[str, Any]]:
    """A month of such days, as found and as left.

    Parameters
    ----------
    site : Site
        With the key.
    acts : tuple
        Repairs of the visit.
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    list
        One row a figure.
    """
    call = site.call
    found, left = (
        energy.day(state, call.weather, call.setpoint, call.mode)
        for state in (site.installation(), site.installation(acts))
    )

    def row(plain: str, kind: str, value: Callable[[Day], float]) -> dict[str, Any]:
        name = _named(plain, call.mode)
        both = [show(value(day), kind, system) for day in (found, left)]
        if kind == "money":
            return {
                "name": name,
                "unit": "",
                "found": f"${both[0].text}",
                "left": f"${both[1].text}",
            }
        return {"name": name, "unit": both[0].unit, "found": both[0].text, "left": both[1].text}

    def worst(day: Day) -> float:
        rooms = day.indoor_temperature
        return float(rooms.min() if call.mode == "heating" else rooms.max())

    month = energy.DAYS_IN_MONTH
    return [
        row("Share of the day it runs", "fraction", lambda day: day.mean_run_fraction),
        row("Warmest the rooms get", "temperature", worst),
        row(
            "Mean room humidity",
            "relative_humidity",
            lambda day: float(day.indoor_relative_humidity.mean()),
        ),
        row("Compressor, a month", "energy", lambda day: day.compressor_energy * month),
        row("Outdoor fan, a month", "energy", lambda day: day.outdoor_fan_energy * month),
        row("Blower, a month", "energy", lambda day: day.blower_energy * month),
        row("Strips, a month", "energy", lambda day: day.strip_energy * month),
        row("Cooling costs, a month of such days", "money", lambda day: day.cost_per_month),
    ]
