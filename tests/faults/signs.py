"""Rows of expected signs, one file a fault, and the conditions they hold under."""

import csv
import tomllib
from pathlib import Path

import pytest

from simulator.plant import catalogue
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from tests.plant.stand import weather, winter

ROWS = Path(__file__).parents[1] / "data" / "fault_signs"
FOLDERS = [ROWS]  # a folder added here is read like the first
# A fault that shows in a mode not listed here cannot be checked, so its checks fail.
AT: dict[str, Conditions] = {"cooling": weather(), "heating": winter()}


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


def healthy(metering: str = "txv") -> Installation:
    """The reference installation."""
    return catalogue.load_installation(metering=metering)


def numbers(point: OperatingPoint) -> dict[str, float]:
    """All plain numbers of an operating point."""
    return {
        name: float(getattr(point, name))
        for name in point.__dataclass_fields__
        if name not in ("state", "mode", "register_airflows")
    }
