"""A day of the house behind the test stand: kilowatt hours and dollars by part."""

from typing import Any

from simulator.plant import defrost, energy
from simulator.plant.conditions import Conditions
from simulator.plant.energy import Day, DayWeather, Parts
from simulator.plant.installation import Installation
from simulator.quantities.shown import show, to_display

SWING = 20.0 * 5.0 / 9.0  # [K], 20 °F, usual between a summer's afternoon and its night
WINTER_SWING = 15.0 * 5.0 / 9.0  # [K], less sun, less swing: chosen
DAILY = {"kWh": "kWh/day", "$": "$/day"}  # unit of a quantity to that of it in a day
# What ``truth`` tells, and of which kind it is.
KINDS = {"run_fraction": "fraction"} | {
    f"{part}_{what}": kind
    for what, kind in (("energy", "energy"), ("cost", "money"))
    for part in (*Parts._fields, "total")
}
# Of a call for heat that the compressor answers, beside these.
WINTER = {
    "balance_point": "temperature",
    "defrost_share": "fraction",
    "delivered_over_defrosts": "heat_rate",
}


def weather_of(conditions: Conditions) -> DayWeather:
    """The day whose afternoon the stand is set to.

    Parameters
    ----------
    conditions : Conditions
        Floats.

    Returns
    -------
    DayWeather
        With the stand's outdoor air at three o'clock and its sun at noon.
    """
    swing = WINTER_SWING if conditions.mode == "heating" else SWING
    return DayWeather(
        high=float(conditions.outdoor_temperature),
        low=float(conditions.outdoor_temperature) - swing,
        humidity_ratio=float(conditions.outdoor_humidity_ratio),
        noon_sun=float(conditions.solar),
        pressure=float(conditions.pressure),
    )


def day_of(installation: Installation, conditions: Conditions) -> Day:
    """That day, with a thermostat set to the temperature at the return grille.

    Parameters
    ----------
    installation : Installation
        Floats.
    conditions : Conditions
        Floats.

    Returns
    -------
    Day
        Settled.
    """
    setpoint = float(conditions.indoor_temperature)
    return energy.day(installation, weather_of(conditions), setpoint, conditions.mode)


def truth(installation: Installation, conditions: Conditions) -> dict[str, dict[str, Any]]:
    """What each part takes of that day; no tool shows this, and no bill.

    Parameters
    ----------
    installation : Installation
        Floats.
    conditions : Conditions
        Floats.

    Returns
    -------
    dict
        ``value`` and ``unit`` by name: energy and cost of each part and of all, and the
        part of the day that it runs; of a heat pump that heats also ``WINTER``.
    """
    day = day_of(installation, conditions)
    values = {"run_fraction": day.mean_run_fraction}
    values |= {f"{part}_energy": joules for part, joules in day.energy_by_part._asdict().items()}
    values |= {f"{part}_cost": dollars for part, dollars in day.cost_by_part._asdict().items()}
    values |= {"total_energy": day.energy, "total_cost": day.cost}
    found = {name: _entry(values[name], kind) for name, kind in KINDS.items()}
    return found | _winter(installation, conditions)


def _winter(installation: Installation, conditions: Conditions) -> dict[str, dict[str, Any]]:
    """Where the compressor alone just holds the rooms; what frost and defrost leave of it now."""
    stuck = bool(installation.unit.reversing_valve.is_stuck)
    if conditions.mode != "heating" or stuck or not float(conditions.compressor_call):
        return {}
    cycle = defrost.cycle(installation, conditions)
    pressure = float(conditions.pressure)
    rooms = float(conditions.indoor_temperature)
    values = {
        "balance_point": energy.balance_point(installation, rooms, pressure=pressure),
        "defrost_share": cycle.defrost_share,
        "delivered_over_defrosts": cycle.mean_capacity,
    }
    return {name: _entry(values[name], kind) for name, kind in WINTER.items()}


def _entry(value: float, kind: str) -> dict[str, Any]:
    unit = show(value, kind).unit
    unit = DAILY.get(unit, unit)
    return {"value": float(to_display(value, kind)), "unit": unit}
