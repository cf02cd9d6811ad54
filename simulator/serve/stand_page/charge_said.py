"""Whether superheat and subcooling of the stand may be read as a charge test, in words."""

from typing import Any

from simulator.plant.charge_test import COLDEST, ENOUGH_AIR, ROOMS, obstacle
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.quantities.shown import show

REASONS = {
    "standing": "No charge test here: the compressor stands.",
    "heating": "No charge test while heating: it is made in cooling, or the charge is weighed.",
    "ice": "No charge test here: ice on the indoor coil. Thaw it first.",
    "wrong_refrigerant": (
        "No charge test here: what is in the circuit is not the refrigerant of the plate."
    ),
    "other_table": "No charge test here: the gauges use the table of another refrigerant.",
    "freezing": "No charge test here: the coil boils below freezing and is icing up.",
    "load": (
        "No charge test here: the rooms' wet bulb is too far from what the plate's subcooling "
        "was stated for."
    ),
    "no_entry": (
        "No charge test here: the chart of a fixed orifice has no entry for this wet bulb and "
        "weather."
    ),
}


def charge_said(
    built: Installation, now: OperatingPoint, gauges: str | None, system: str
) -> dict[str, Any]:
    """The verdict on a charge test here and now, with its reason.

    Parameters
    ----------
    built : Installation
        As it stands.
    now : OperatingPoint
        Floats, its settled state.
    gauges : str or None
        Refrigerant that the gauges are set to; None for what is in the circuit.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    dict
        ``counts`` and ``text``.
    """
    why = obstacle(built, now, gauges)
    if why is None:
        return {
            "counts": True,
            "text": "A charge test counts here: air, coil and weather allow it.",
        }
    return {"counts": False, "text": _told(why, built, now, system)}


def _told(why: str, built: Installation, now: OperatingPoint, system: str) -> str:
    if why == "little_air":
        air = show(float(now.airflow), "airflow", system)
        least = show(ENOUGH_AIR * float(built.unit.rated_airflow), "airflow", system)
        return f"No charge test here: {air} over the coil, {least} is the least. Air comes first."
    if why == "cold_weather":
        coldest = show(COLDEST, "temperature", system, decimals=0)
        return f"No charge test here: the method ends below {coldest} outdoors."
    if why == "rooms":
        low, high = (str(show(end, "temperature", system, decimals=0)) for end in ROOMS)
        return f"No charge test here: it is made with return air between {low} and {high}."
    return REASONS[why]
