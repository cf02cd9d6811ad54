"""Rows of expected signs, one file a fault, and the conditions they hold under."""

import csv
import tomllib
from dataclasses import replace
from pathlib import Path

import pytest

from simulator.faults._base import FaultKind
from simulator.plant import catalogue, energy, steady
from simulator.plant.conditions import Conditions
from simulator.plant.energy import DayWeather
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from tests.plant.stand import fahrenheit, weather, winter

ROWS = Path(__file__).parents[1] / "data" / "fault_signs"
FOLDERS = [ROWS]  # a folder added here is read like the first
# A fault that shows in a mode not listed here cannot be checked, so its checks fail. What
# shows only in a special case is looked at there too, where its rows name the case.
AT: dict[str, Conditions] = {
    "cooling": weather(),
    "heating": winter(),
    "heating_with_strips": replace(winter(), auxiliary_call=1.0),
    "second_zone_calls": replace(weather(), zone_call=2.0),
}
HOUSES = {"second_zone_calls": "two_zones"}
# What only the day shows: its run time, rooms and energy, at usual setpoints; chosen.
DAYS = {
    "cooling_day": DayWeather(high=fahrenheit(95.0), low=fahrenheit(75.0), humidity_ratio=0.0135),
    "heating_day": DayWeather(
        high=fahrenheit(30.0), low=fahrenheit(15.0), humidity_ratio=0.0022, noon_sun=300.0
    ),
    "dry_heating_day": DayWeather(
        high=fahrenheit(45.0), low=fahrenheit(30.0), humidity_ratio=0.0024, noon_sun=300.0
    ),
    "mild_heating_day": DayWeather(
        high=fahrenheit(55.0), low=fahrenheit(42.0), humidity_ratio=0.005, noon_sun=300.0
    ),
}
SETPOINTS = {"cooling": fahrenheit(76.0), "heating": fahrenheit(70.0)}
DAILY = (
    *("mean_run_fraction", "peak_run_fraction", "energy"),
    *("compressor_energy", "blower_energy", "strip_energy"),
    *("mean_indoor_temperature", "mean_relative_humidity"),
)
MODE_OF = {
    "heating_with_strips": "heating",
    "second_zone_calls": "cooling",
    "cooling_day": "cooling",
    "heating_day": "heating",
    "dry_heating_day": "heating",
    "mild_heating_day": "heating",
}


def signs() -> list[dict[str, str]]:
    """All rows, each with the fault its file is named for."""
    source = ROWS.with_name("fault_signs.source.toml")
    if not tomllib.loads(source.read_text(encoding="utf-8")):
        pytest.fail(f"{source.name} does not say where the rows are from")
    found = []
    for folder in FOLDERS:
        for path in sorted(folder.glob("*.csv")):
            with path.open(encoding="utf-8", newline="") as file:
                found += [{"fault": path.stem, **row} for row in csv.DictReader(file)]
    return found


def cases(kind: FaultKind) -> tuple[str, ...]:
    """The modes of a fault, and the special cases that its rows name."""
    special = [row["mode"] for row in signs() if row["fault"] == kind.id and row["mode"] in MODE_OF]
    return tuple(dict.fromkeys((*kind.modes, *special)))


def healthy(metering: str = "txv", case: str = "cooling") -> Installation:
    """The reference installation, or that of a special case."""
    return catalogue.load_installation(metering=metering, house=HOUSES.get(case, "reference"))


def observed(installation: Installation, case: str) -> dict[str, float]:
    """All plain numbers of the settled state, or of the day."""
    if case not in DAYS:
        return numbers(steady.solve(installation, AT[case]))
    mode = MODE_OF[case]
    day = energy.day(installation, DAYS[case], SETPOINTS[mode], mode)
    return {name: float(getattr(day, name)) for name in DAILY}


def numbers(point: OperatingPoint) -> dict[str, float]:
    """All plain numbers of an operating point."""
    return {
        name: float(getattr(point, name))
        for name in point.__dataclass_fields__
        if name not in ("state", "mode", "register_airflows")
    }
