"""A day of the house as it is asked for, and as it is told: run time, room air, energy, money."""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from simulator.plant.installation import Installation
from simulator.plant.rooms import AIR_DENSITY, STEP
from simulator.properties import moist_air
from simulator.quantities.values import Array

DAYS_TO_SETTLE = 4
DAYS_IN_MONTH = 30.0


@dataclass(frozen=True, slots=True, kw_only=True)
class DayWeather:
    """One repeated day.

    Parameters
    ----------
    high, low : float
        Outdoor temperatures, at 15:00 and 3:00. [K]
    humidity_ratio : float
        Outdoors, all day. [kg/kg]
    noon_sun : float
        On a horizontal surface at noon. [W/m²]
    pressure : float
        Barometric. [Pa]
    """

    high: float
    low: float
    humidity_ratio: float
    noon_sun: float = 900.0
    pressure: float = moist_air.STANDARD_PRESSURE


class Parts(NamedTuple):
    """What each part of the system takes of one day.

    Parameters
    ----------
    compressor, outdoor_fan, blower, strips : float
        Energy or money, as the owner says. [J] or [$]
    """

    compressor: float
    outdoor_fan: float
    blower: float
    strips: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """The settled day; arrays hold one value each ten minutes.

    Parameters
    ----------
    hours : array
        Of the clock. [h]
    run_fraction : array
        Part of each step that the system answers a call. [-]
    indoor_temperature : array
        [K]
    indoor_relative_humidity : array
        [-]
    mean_run_fraction, peak_run_fraction : float
        Over the day; over its worst hour. [-]
    compressor_energy, outdoor_fan_energy, blower_energy, strip_energy : float
        Over the day. [J]
    electricity_price : float
        [$/J]
    """

    hours: Array
    run_fraction: Array
    indoor_temperature: Array
    indoor_relative_humidity: Array
    mean_run_fraction: float
    peak_run_fraction: float
    compressor_energy: float
    outdoor_fan_energy: float
    blower_energy: float
    strip_energy: float
    electricity_price: float

    @property
    def energy_by_part(self) -> Parts:
        """Electricity of the day [J]."""
        return Parts(
            self.compressor_energy, self.outdoor_fan_energy, self.blower_energy, self.strip_energy
        )

    @property
    def cost_by_part(self) -> Parts:
        """Money of the day [$]."""
        return Parts(*(energy * self.electricity_price for energy in self.energy_by_part))

    @property
    def mean_relative_humidity(self) -> float:
        """Of the rooms, over the day [-]."""
        return float(self.indoor_relative_humidity.mean())

    @property
    def mean_indoor_temperature(self) -> float:
        """Of the rooms, over the day [K]."""
        return float(self.indoor_temperature.mean())

    @property
    def energy(self) -> float:
        """Electricity of the day, all parts [J]."""
        return sum(self.energy_by_part)

    @property
    def cost(self) -> float:
        """Money of the day, all parts [$]."""
        return self.energy * self.electricity_price

    @property
    def cost_per_month(self) -> float:
        """Money of thirty such days, all parts [$]."""
        return self.cost * DAYS_IN_MONTH


def outdoor_temperature(weather: DayWeather, hour: Array) -> Array:
    """Sine of the day.

    Parameters
    ----------
    weather : DayWeather
        The day.
    hour : array
        Of the clock. [h]

    Returns
    -------
    array
        [K]
    """
    mean, swing = 0.5 * (weather.high + weather.low), 0.5 * (weather.high - weather.low)
    wave: Array = mean + swing * np.cos(2 * np.pi * (hour - 15.0) / 24.0)
    return wave


def sun(weather: DayWeather, hour: Array) -> Array:
    """Half sine from 6:00 to 19:00.

    Parameters
    ----------
    weather : DayWeather
        The day.
    hour : array
        Of the clock. [h]

    Returns
    -------
    array
        [W/m²]
    """
    return (
        weather.noon_sun
        * np.maximum(np.sin(np.pi * (hour - 6.0) / 13.0), 0.0)
        * ((hour > 6.0) & (hour < 19.0))
    )


def air_density(weather: DayWeather) -> float:
    """Of the air that house and weather exchange.

    Parameters
    ----------
    weather : DayWeather
        Gives the barometer.

    Returns
    -------
    float
        [kg/m³]
    """
    return AIR_DENSITY * weather.pressure / moist_air.STANDARD_PRESSURE


def clock() -> Array:
    """The middle of every step of a day.

    Returns
    -------
    array
        [h]
    """
    return np.asarray((np.arange(int(86400 / STEP)) + 0.5) * STEP / 3600.0, dtype=np.float64)


def hourly(steps: Array) -> Array:
    """Means of the hours of the clock.

    Parameters
    ----------
    steps : array
        One value a step of the day.

    Returns
    -------
    array
        One value an hour, in the same unit.
    """
    return np.asarray(steps.reshape(24, -1).mean(axis=1), dtype=np.float64)


def summary(installation: Installation, weather: DayWeather, log: Array, used: Array) -> Day:
    """The day from its steps.

    Parameters
    ----------
    installation : Installation
        Gives the price.
    weather : DayWeather
        Gives the barometer.
    log : array
        Run fraction, room temperature and humidity ratio of each step. [-], [K], [kg/kg]
    used : array
        Energy of each part. [J]

    Returns
    -------
    Day
    """
    fractions = log[:, 0]
    humidity = np.asarray(moist_air.relative_humidity(log[:, 1], log[:, 2], weather.pressure))
    return Day(
        hours=clock(),
        run_fraction=fractions.copy(),
        indoor_temperature=log[:, 1].copy(),
        indoor_relative_humidity=humidity,
        mean_run_fraction=float(fractions.mean()),
        peak_run_fraction=float(hourly(fractions).max()),
        compressor_energy=float(used[0]),
        outdoor_fan_energy=float(used[1]),
        blower_energy=float(used[2]),
        strip_energy=float(used[3]),
        electricity_price=float(np.asarray(installation.house.electricity_price)),
    )
