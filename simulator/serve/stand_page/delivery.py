"""Where the heat goes between coil and rooms: a balance in which nothing is left over."""

import math
from typing import Any

from simulator.plant.operating_point import OperatingPoint
from simulator.properties import moist_air
from simulator.quantities.shown import from_display, show, to_display
from simulator.serve.stand_page.plot import table

LEAST = 0.01  # of the whole; thinner streams are left to the table [-]
WHO = {
    "coil": "the coil",
    "rooms": "the rooms",
    "fan": "blower and strips",
    "return_leak": "return leaks",
    "return_walls": "return duct walls",
    "supply_leak": "supply leaks",
    "supply_walls": "supply duct walls",
}


def heat(value: float, system: str) -> str:
    """A heat rate to three digits; nobody can measure it any closer.

    Parameters
    ----------
    value : float
        [W]
    system : str
        ``us`` or ``si``.

    Returns
    -------
    str
        With its unit.

    Examples
    --------
    >>> heat(10551.0, "us"), heat(10551.0, "si")
    ('36,000 Btu/h', '10.6 kW')
    """
    size = abs(float(to_display(value, "heat_rate", system)))
    digits = 2 - math.floor(math.log10(size)) if size > 0.01 else 2
    rounded = float(
        from_display(
            round(float(to_display(value, "heat_rate", system)), digits), "heat_rate", system
        )
    )
    return str(show(rounded, "heat_rate", system, decimals=max(digits, 0)))


def shares(point: OperatingPoint) -> dict[str, float]:
    """Heat that each part adds to the delivery, less what it takes from it.

    By enthalpy against the room's, so the parts add up to what reaches the rooms: a first
    law over the air from grille to registers. What a bypass returns meets itself again.

    Parameters
    ----------
    point : OperatingPoint
        Floats.

    Returns
    -------
    dict
        By part, in the direction of the mode; ``rooms`` is the sum of all others. [W]
    """
    sign = -1.0 if point.mode == "heating" else 1.0
    mass, whole = float(point.air_mass_flow), float(point.airflow)

    def enthalpy(place: str) -> float:
        return float(
            moist_air.enthalpy(
                getattr(point, f"{place}_temperature"), getattr(point, f"{place}_humidity_ratio")
            )
        )

    room, entering = enthalpy("grille"), enthalpy("air_handler_return")
    below = room - enthalpy("supply_plenum")
    leaked, drawn, sent = (
        float(getattr(point, f"{name}_airflow")) / whole
        for name in ("supply_leak", "return_leak", "register")
    )
    returned = mass * (entering - room)
    by_leak = mass * drawn * (enthalpy("return_zone") - room)
    bypassed = -mass * (1.0 - leaked - sent) * below
    rooms = float(point.delivered_capacity)
    coil = float(point.gross_capacity)
    return {
        "coil": coil,
        "fan": -sign * float(point.air_handler_power),
        "return_leak": -sign * by_leak,
        "return_walls": -sign * (returned - by_leak - bypassed),
        "supply_leak": -sign * mass * leaked * below,
        "supply_walls": rooms - sign * mass * sent * below,
        "rooms": rooms,
    }


def delivery_chart(pair: tuple[OperatingPoint, OperatingPoint], system: str) -> dict[str, Any]:
    """Two streams as wide as what flows in them.

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
    parts = [shares(point) for point in pair]
    heating = pair[0].mode == "heating"
    what = "heat" if heating else "cooling"
    who = _who(pair)
    streams = [
        _stream(name, one, (who, system))
        for name, one in zip(("now", "healthy"), parts, strict=True)
    ]
    whole = max(stream["whole"] for stream in streams)
    return {
        "kind": "flow",
        "title": f"Where the {what} goes",
        "summary": f"{_told(parts[0], what, system)} "
        + f"Healthy, {heat(parts[1]['rooms'], system)} of {heat(parts[1]['coil'], system)}.",
        "whole": whole,
        "streams": streams if parts[0] != parts[1] else streams[:1],
        "tables": [
            table(
                f"Where the {what} goes",
                ("Part", "now", "healthy"),
                [
                    (
                        _capital(who[name]),
                        heat(parts[0][name], system),
                        heat(parts[1][name], system),
                    )
                    for name in who
                ],
            )
        ],
    }


def _who(pair: tuple[OperatingPoint, OperatingPoint]) -> dict[str, str]:
    """Strips are named where they heat."""
    has_strips = any(float(point.strip_power) > 0.0 for point in pair)
    return WHO if has_strips else WHO | {"fan": "blower"}


def _told(parts: dict[str, float], what: str, system: str) -> str:
    coil, rooms = parts["coil"], parts["rooms"]
    if rooms < 0.0:
        if what == "heat":
            return f"Blower and ducts cool the rooms by {heat(-rooms, system)}."
        return f"Blower and ducts warm the rooms by {heat(-rooms, system)}."
    given, got = heat(coil, system), heat(rooms, system)
    if what == "heat":
        return f"Of {given} of heat at the coil, {got} reach the rooms."
    return f"Of {given} of cooling at the coil, {got} reach the rooms."


def _stream(
    name: str, parts: dict[str, float], said_in: tuple[dict[str, str], str]
) -> dict[str, Any]:
    """What flows in on the left and out on the right; both sides are the same width."""
    who, system = said_in
    gives = {part: watts for part, watts in parts.items() if part != "rooms" and watts > 0.0}
    takes = {part: -watts for part, watts in parts.items() if part != "rooms" and watts < 0.0}
    if parts["rooms"] >= 0.0:
        takes = {"rooms": parts["rooms"]} | takes
    else:
        gives = gives | {"rooms": -parts["rooms"]}
    whole = sum(takes.values())

    def ends(side: dict[str, float]) -> list[dict[str, Any]]:
        return [
            {
                "part": part,
                "label": _capital(who[part]),
                "size": watts,
                "text": heat(watts, system),
                "share": f"{100 * watts / whole:.0f} %" if whole > 0.0 else "",
                "told": watts > LEAST * whole,
            }
            for part, watts in side.items()
        ]

    return {"name": name, "whole": whole, "gives": ends(gives), "takes": ends(takes)}


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
