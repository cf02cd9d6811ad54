"""Words and numbers that the test stand takes, and what it takes where nothing is said."""

from importlib.resources import files

from simulator.plant.case import MODES
from simulator.plant.data_sheet import MOTORS
from simulator.properties import refrigerant

__all__ = [
    "HEATING_LIMITS",
    "HOUSES",
    "LIMITS",
    "MODES",
    "MOTORS",
    "REFRIGERANTS",
    "STRIPS",
    "UNITS",
    "USUAL",
    "ZONES",
    "ZONE_CALLS",
]

ZONES = ("attic", "crawl_space", "garage", "basement")
HOUSES = ("reference", "two_zones")  # site files
STRIPS = ("off", "called", "emergency")  # the last alone, without the compressor
ZONE_CALLS = ("both", "first", "second")  # by the number of the zone that calls
UNITS = tuple(
    sorted(
        entry.name.removesuffix(".toml")
        for entry in files("simulator.plant").joinpath("equipment").iterdir()
        if entry.name.endswith(".toml")
    )
)
REFRIGERANTS = tuple(refrigerant.facts())
# Allowed settings, in the technician's units: lowest, highest, unit, plain name.
LIMITS: dict[str, tuple[float, float, str, str]] = {
    "outdoor": (55.0, 125.0, "°F", "the outdoor temperature"),
    "outdoor_wb": (30.0, 90.0, "°F", "the outdoor wet bulb"),
    "return_db": (60.0, 95.0, "°F", "the return dry bulb"),
    "return_wb": (45.0, 85.0, "°F", "the return wet bulb"),
    "airflow": (0.3, 1.4, "of rated", "the airflow"),
    "altitude": (0.0, 10000.0, "ft", "the altitude"),
}
# What differs in winter: weather no heating thermostat would call in stays outside.
HEATING_LIMITS: dict[str, tuple[float, float, str, str]] = LIMITS | {
    "outdoor": (-5.0, 65.0, "°F", "the outdoor temperature while heating"),
    "outdoor_wb": (-10.0, 65.0, "°F", "the outdoor wet bulb while heating"),
    "return_db": (50.0, 80.0, "°F", "the return dry bulb while heating"),
    "return_wb": (35.0, 70.0, "°F", "the return wet bulb while heating"),
}
# The A and H1 points of AHRI 210/240; the wet bulb of a heated room is usual in winter,
# about 35 % relative: chosen.
USUAL: dict[str, dict[str, float]] = {
    "cooling": {"outdoor": 95.0, "return_db": 80.0, "return_wb": 67.0},
    "heating": {"outdoor": 47.0, "return_db": 70.0, "return_wb": 55.0},
}
SUMMER_HUMIDITY = 0.40  # outdoors, relative; chosen
H1 = (281.483, 279.261)  # [K], 47 and 43 °F, whose relative humidity any winter's day gets
# An induction motor cannot outrun its field: close to that speed no winding is strong enough.
MOST_AIRFLOW = {"constant_torque": 1.4, "psc": 1.1}
MOST_FAULTS = 4
FOOT = 0.3048  # [m]


def limits_of(mode: str) -> dict[str, tuple[float, float, str, str]]:
    """Allowed settings of a mode.

    Parameters
    ----------
    mode : str
        ``cooling`` or ``heating``.

    Returns
    -------
    dict
        As ``LIMITS``.
    """
    return HEATING_LIMITS if mode == "heating" else LIMITS
