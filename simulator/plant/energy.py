"""A day in the house, summer or winter: run time, room air, energy and money by part."""

from simulator.plant import cooling_day, heating_day
from simulator.plant.day_record import (
    DAYS_IN_MONTH,
    Day,
    DayWeather,
    Parts,
    outdoor_temperature,
    sun,
)
from simulator.plant.heating_day import balance_point
from simulator.plant.installation import Installation

__all__ = [
    "DAYS_IN_MONTH",
    "Day",
    "DayWeather",
    "Parts",
    "balance_point",
    "day",
    "outdoor_temperature",
    "sun",
]


def day(
    installation: Installation, weather: DayWeather, setpoint: float, mode: str = "cooling"
) -> Day:
    """Repeat one day until it settles.

    Parameters
    ----------
    installation : Installation
        As it stands.
    weather : DayWeather
        The day.
    setpoint : float
        Of the thermostat. [K]
    mode : str
        What the thermostat is set to: ``cooling`` or ``heating``.

    Returns
    -------
    Day
        The last of the repeated days.
    """
    if mode == "heating":
        return heating_day.day(installation, weather, setpoint)
    return cooling_day.day(installation, weather, setpoint)
