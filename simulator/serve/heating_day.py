"""A winter's day of the house: the circuit runs as long as the loss asks, strips do the rest."""

from dataclasses import replace
from typing import NamedTuple

import numpy as np

from simulator.plant import energy, steady
from simulator.plant.conditions import Conditions
from simulator.plant.energy import Day, DayWeather
from simulator.plant.installation import Installation
from simulator.plant.rooms import AIR_DENSITY, AIR_HEAT_CAPACITY, STEP
from simulator.properties import moist_air
from simulator.quantities.values import Array

KNOTS = 5  # outdoor temperatures solved exactly; between them the plant is near a line


class _Running(NamedTuple):
    """What runs while heat is called for, at each hour; first without, then with all strips."""

    delivered: tuple[Array, Array]
    infiltration: Array
    parts: tuple[Array, Array]  # each of shape (4, hours)


def day(installation: Installation, conditions: Conditions, weather: DayWeather) -> Day:
    """Settle the house at every hour of the day.

    Loss through the envelope and by air change, less people and appliances, is what the run
    time delivers (first law, nothing stored: a whole day gives back what it stores). Where
    running throughout is not enough, strips add the rest as the second stage; where all of
    them are not enough, the rooms fall until loss and heat agree. Days are without sun,
    frost is not melted off, and so no defrost is paid for.

    Parameters
    ----------
    installation : Installation
        Floats.
    conditions : Conditions
        Heating, with the setpoint at the return grille.
    weather : DayWeather
        Outdoor temperatures of the day.

    Returns
    -------
    Day
        Indoor humidity as at the grille, all day.
    """
    count = int(86400 / STEP)
    hours = np.asarray((np.arange(count) + 0.5) * STEP / 3600.0, dtype=np.float64)
    outdoors = energy.outdoor_temperature(weather, hours)
    running = _running(installation, conditions, weather, outdoors)
    house, setpoint = installation.house, float(np.asarray(conditions.indoor_temperature))
    # Per kelvin; the fan's own air change is taken for the part of the hour that it runs.
    still = house.conductance + AIR_DENSITY * AIR_HEAT_CAPACITY * house.natural_infiltration
    blown = house.conductance + AIR_DENSITY * AIR_HEAT_CAPACITY * running.infiltration
    apart = setpoint - outdoors
    idle = still * apart - house.internal_gain
    busy = running.delivered[0] - (blown - still) * apart
    fraction = np.where(idle > 0.0, np.clip(idle / np.maximum(busy, 1.0), 0.0, 1.0), 0.0)
    short = np.maximum(blown * apart - house.internal_gain - running.delivered[0], 0.0)
    short = np.where(fraction >= 1.0, short, 0.0)
    added = np.maximum(running.delivered[1] - running.delivered[0], 1.0)
    staged = np.clip(short / added, 0.0, 1.0)
    rooms = setpoint - np.maximum(short - staged * added, 0.0) / blown
    power = fraction * (running.parts[0] + staged * (running.parts[1] - running.parts[0]))
    used = power.sum(axis=1) * STEP
    humidity = moist_air.relative_humidity(
        rooms, conditions.indoor_humidity_ratio, conditions.pressure
    )
    return Day(
        hours=hours,
        run_fraction=fraction,
        indoor_temperature=rooms,
        indoor_relative_humidity=np.asarray(humidity),
        mean_run_fraction=float(fraction.mean()),
        peak_run_fraction=float(fraction.reshape(24, -1).mean(axis=1).max()),
        compressor_energy=float(used[0]),
        outdoor_fan_energy=float(used[1]),
        blower_energy=float(used[2]),
        strip_energy=float(used[3]),
        electricity_price=float(np.asarray(house.electricity_price)),
    )


def _running(
    installation: Installation, conditions: Conditions, weather: DayWeather, outdoors: Array
) -> _Running:
    """Exact states at a few outdoor temperatures, straight lines between."""
    knots = np.linspace(weather.low, weather.high, KNOTS)
    pressure = conditions.pressure
    # The day's water stays in its air as far as colder air can hold it.
    water = np.minimum(
        weather.humidity_ratio, np.asarray(moist_air.saturated_humidity_ratio(knots, pressure))
    )
    around = [
        replace(
            conditions,
            outdoor_temperature=float(cold),
            outdoor_humidity_ratio=float(wet),
            auxiliary_call=call,
        )
        for call in (0.0, 1.0)
        for cold, wet in zip(knots, water, strict=True)
    ]
    point = steady.solve_many([installation] * len(around), around)

    def spread(name: str, with_strips: bool) -> Array:
        rows = np.broadcast_to(np.asarray(getattr(point, name), dtype=float), len(around))
        half = rows[KNOTS:] if with_strips else rows[:KNOTS]
        line: Array = np.interp(outdoors, knots, half)
        return line

    names = ("compressor_power", "outdoor_fan_power", "blower_power", "strip_power")
    return _Running(
        delivered=(spread("delivered_sensible", False), spread("delivered_sensible", True)),
        infiltration=spread("infiltration_airflow", False),
        parts=(
            np.array([spread(name, False) for name in names]),
            np.array([spread(name, True) for name in names]),
        ),
    )
