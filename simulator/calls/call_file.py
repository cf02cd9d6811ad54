"""A service call as everyone may read it: customer, house, weather, answers."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from typing import Any

from simulator.calls import versions
from simulator.calls.call_table import CallFileError, Rows, table
from simulator.plant import parameter_file
from simulator.plant.catalogue import METERING
from simulator.plant.energy import DayWeather

MODES = ("cooling", "heating")
HARDEST = 5
ANSWERS = ("ask_when", "ask_changed", "ask_touched", "ask_rooms", "read_bill", "read_history")


@dataclass(frozen=True, slots=True, kw_only=True)
class CallFile:
    """One call without its key.

    Parameters
    ----------
    id : str
        File name.
    level : int
        How hard it is, 1 to 5. [-]
    title, customer, address, complaint : str
        For people.
    history, equipment : tuple
        Lines of the work order.
    weather_text : str
        The day in words.
    house, unit, metering : str
        Which installation.
    answers : mapping
        What the customer, the bill and the history say, by measurement.
    place_names : mapping
        What a place is called on this site.
    is_running : bool
        Whether the system runs on arrival.
    mode : str
        What the thermostat is set to: ``cooling`` or ``heating``.
    arrival_hour : float
        Of the clock. [h]
    room_temperature : float
        Held through the visit. [K]
    room_humidity_ratio : float
        Held through the visit. [kg/kg]
    voltage : float
        At the equipment. [V]
    weather : DayWeather
        The day of the visit, and of the bill.
    setpoint : float
        Of the thermostat. [K]
    """

    id: str
    level: int
    title: str
    customer: str
    address: str
    complaint: str
    history: tuple[str, ...]
    equipment: tuple[str, ...]
    weather_text: str
    house: str
    unit: str
    metering: str
    answers: Mapping[str, str]
    place_names: Mapping[str, str]
    is_running: bool
    mode: str
    arrival_hour: float
    room_temperature: float
    room_humidity_ratio: float
    voltage: float
    weather: DayWeather
    setpoint: float


def names() -> tuple[str, ...]:
    """All calls.

    Returns
    -------
    tuple
        File names in alphabetical order.
    """
    folder = files("simulator.calls") / "library"
    return tuple(
        sorted(entry.name[:-5] for entry in folder.iterdir() if entry.name.endswith(".toml"))
    )


def document(call: str) -> dict[str, Any]:
    """A call file as read, key and all; for this module and the vault only.

    Parameters
    ----------
    call : str
        File name, or that of a version.

    Returns
    -------
    dict

    Raises
    ------
    CallFileError
        If there is none or it is damaged.
    """
    parent, number = versions.parted(call)
    if parent not in names():
        raise CallFileError(f"There is no call named {call[:40]!r}.")
    path = files("simulator.calls") / "library" / f"{parent}.toml"
    tables = parsed(parent, path.read_bytes())
    if number == 0:
        return tables
    return versions.version_of(tables, parent, number)


def parsed(call: str, content: bytes) -> dict[str, Any]:
    """The tables of a call file.

    Parameters
    ----------
    call : str
        For messages.
    content : bytes
        Of the file.

    Returns
    -------
    dict

    Raises
    ------
    CallFileError
        If it is not such a file.
    """
    try:
        return tomllib.loads(content.decode("utf-8"))
    except (UnicodeDecodeError, tomllib.TOMLDecodeError):
        raise CallFileError(
            f"The file of call {call} is damaged and cannot be opened; visits already made "
            "are kept."
        ) from None


@lru_cache
def load(call: str) -> CallFile:
    """A call by name.

    Parameters
    ----------
    call : str
        File name.

    Returns
    -------
    CallFile

    Raises
    ------
    CallFileError
        If it cannot be used.
    """
    return understood(call, document(call))


def understood(call: str, tables: Mapping[str, Any]) -> CallFile:
    """The public part of a call file.

    Parameters
    ----------
    call : str
        Its name.
    tables : mapping
        As read.

    Returns
    -------
    CallFile

    Raises
    ------
    CallFileError
        Naming the first thing that is missing or wrong.
    """
    order, site = table(call, tables, "work_order"), table(call, tables, "site")
    answers, arrival = table(call, tables, "answers"), table(call, tables, "arrival")
    day = table(call, tables, "day")
    _check_equipment(site)
    return CallFile(
        id=call,
        level=_level(order),
        title=order.text("title"),
        customer=order.text("customer"),
        address=order.text("address"),
        complaint=order.text("complaint"),
        history=order.lines("history"),
        equipment=order.lines("equipment"),
        weather_text=order.text("weather"),
        house=site.text("house"),
        unit=site.text("unit"),
        metering=site.text("metering"),
        answers={key: answers.text(key) for key in ANSWERS},
        place_names={key: site.text(key) for key in ("zone", "air_handler")},
        is_running=arrival.rows.get("is_running") is True,
        mode=_mode(arrival),
        arrival_hour=arrival.number("hour"),
        room_temperature=arrival.number("room_temperature"),
        room_humidity_ratio=arrival.number("room_humidity_ratio"),
        voltage=arrival.number("voltage"),
        weather=DayWeather(
            high=day.number("high"),
            low=day.number("low"),
            humidity_ratio=day.number("humidity_ratio"),
            noon_sun=day.number("noon_sun"),
        ),
        setpoint=day.number("setpoint"),
    )


def _level(order: Rows) -> int:
    level = order.rows.get("level")
    if isinstance(level, bool) or not isinstance(level, int) or not 1 <= level <= HARDEST:
        raise CallFileError(f"Call {order.call}: {order.table} needs a level from 1 to {HARDEST}.")
    return level


def _mode(arrival: Rows) -> str:
    mode = str(arrival.rows.get("mode", MODES[0]))
    if mode not in MODES:
        raise CallFileError(
            f"Call {arrival.call}: {arrival.table} needs a mode of {' or '.join(MODES)}."
        )
    return mode


def _check_equipment(site: Rows) -> None:
    """Refuse a site whose house, unit or metering device there is not."""
    try:
        parameter_file.read("sites", site.text("house"))
        parameter_file.read("equipment", site.text("unit"))
    except parameter_file.ParameterFileError:
        raise CallFileError(
            f"Call {site.call}: {site.table} names a house or a unit that cannot be used."
        ) from None
    if site.text("metering") not in METERING:
        raise CallFileError(f"Call {site.call}: {site.table} needs metering of a kind there is.")


def damaged() -> list[str]:
    """Calls whose file cannot be used, a sentence each.

    Returns
    -------
    list
        Usually empty.
    """
    said = []
    for name in names():
        try:
            load(name)
        except CallFileError as problem:
            said.append(str(problem))
    return said
