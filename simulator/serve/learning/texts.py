"""What a lesson says: its file, and texts whose every number is computed."""

import re
import tomllib
from functools import lru_cache
from importlib.resources import files
from typing import Any

from simulator.quantities.kinds import KINDS
from simulator.quantities.shown import printed
from simulator.serve import bench_readings
from simulator.serve.bench_readings import READINGS, TRUTH
from simulator.serve.learning.sums import worked
from simulator.serve.stand.setting import Setting

LABELS = {
    "condensing_temperature": "Condensing temperature",
    "evaporating_temperature": "Evaporating temperature",
    "static_before_filter": "Static before the filter",
    "static_after_filter": "Static after the filter",
    "static_after_coil": "Static after the coil",
    "static_supply": "Static in the supply plenum",
    "liquid_line_temperature": "Liquid line",
    "return_temperature": "Return dry bulb at the grille",
    "air_handler_return_temperature": "Return dry bulb at the air handler",
    "supply_plenum_temperature": "Supply dry bulb at the plenum",
    "near_register_temperature": "Nearest register",
    "register_airflow": "Sum of the registers",
    "outdoor_current": "Amps of the outdoor unit",
    "air_handler_current": "Amps of the air handler",
    "condensate_rate": "Condensate",
    "house_pressure": "House pressure",
    "gross_capacity": "Cooling at the coil",
    "airflow": "Airflow",
    "filter_drop": "Filter drop",
    "coil_drop": "Coil drop",
    "total_external_static": "Total external static",
    "suction_pressure": "Suction pressure",
    "liquid_pressure": "Liquid pressure",
    "superheat": "Superheat",
    "subcooling": "Subcooling",
    "temperature_split": "Split at the air handler",
    "delivered_capacity": "Cooling that reaches the rooms",
}
_HOLE = re.compile(r"\{([\w-]+)\.(\w+)\}")
_SUM = re.compile(r"\{=([^|}]+)\|([^|}]*)\|(\d)\}")


@lru_cache
def lesson_file(name: str) -> dict[str, Any]:
    """The parts of one lesson.

    Parameters
    ----------
    name : str
        As the notebook is named.

    Returns
    -------
    dict
        States and parts.
    """
    path = files("simulator.serve.learning").joinpath("lesson_parts", f"{name}.toml")
    return tomllib.loads(path.read_text(encoding="utf-8"))


@lru_cache
def state_table(lesson: str, state: str) -> dict[str, dict[str, Any]]:
    """Readings and truth of one state, in the technician's units.

    Parameters
    ----------
    lesson, state : str
        Which.

    Returns
    -------
    dict
        Value and unit by name.
    """
    given = {k: v for k, v in lesson_file(lesson)["states"][state].items() if k != "name"}
    found = bench_readings.as_table(bench_readings.solved(Setting(**given)))
    return {**found["readings"], **found["truth"]}


def kind_of(reading: str) -> str:
    """The kind of quantity a reading is.

    Parameters
    ----------
    reading : str
        Its name.

    Returns
    -------
    str
    """
    if reading == "temperature_split":
        return "temperature_difference"
    return {**READINGS, **TRUTH}[reading][1]


def number(lesson: str, states: str, reading: str) -> float:
    """A reading, or how it moved.

    Parameters
    ----------
    lesson : str
        Which lesson.
    states : str
        One state, ``first-second`` or ``first/second``; the last in percent.
    reading : str
        Its name.

    Returns
    -------
    float
        In the technician's unit. [-]
    """
    first, sign, second = re.match(r"(\w+)([-/]?)(\w*)", states).groups()  # type: ignore[union-attr]
    value = float(state_table(lesson, first)[reading]["value"])
    if not sign:
        return value
    other = float(state_table(lesson, second)[reading]["value"])
    return value - other if sign == "-" else 100.0 * value / other


def written(lesson: str, text: str) -> str:
    """A text with its holes filled.

    Parameters
    ----------
    lesson : str
        Which lesson.
    text : str
        With ``{state.reading}`` or ``{=sum|unit|decimals}`` in it.

    Returns
    -------
    str
        As people read it.
    """

    def filled(hole: re.Match[str]) -> str:
        states, reading = hole.groups()
        decimals = KINDS[kind_of(reading)].us.decimals
        value = printed(number(lesson, states, reading), decimals)
        unit = state_table(lesson, re.split("[-/]", states)[0])[reading]["unit"]
        return f"{value}\u00a0{unit}"

    def summed(hole: re.Match[str]) -> str:
        value = printed(total(lesson, hole[1]), int(hole[3]))
        return f"{value}\u00a0{hole[2]}" if hole[2] else value

    return _SUM.sub(summed, _HOLE.sub(filled, text))


def total(lesson: str, text: str) -> float:
    """A sum over the lesson's numbers and readings.

    Parameters
    ----------
    lesson : str
        Which lesson.
    text : str
        Plain arithmetic; ``state.reading`` is a reading.

    Returns
    -------
    float
        In the unit the sum gives. [-]
    """
    numbers = lesson_file(lesson).get("numbers", {})
    return worked(
        text,
        named=lambda name: float(numbers[name]),
        read=lambda state, reading: number(lesson, state, reading),
    )
