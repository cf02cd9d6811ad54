"""House, ducts and the spaces around them, from a site file."""

from typing import Any

from simulator.plant.controls import Controls
from simulator.plant.installation import Ducts, House, Installation, Zone
from simulator.plant.parameter_file import ParameterFileError, Table, short

LARGEST_LEAK = 0.6  # beyond this a duct carries hardly anything [-]; chosen
MOST_ROOMS = 40
# Beyond these no dwelling goes, nor does the plant know it: row, unit and most; chosen wide.
MOST: dict[str, tuple[str, float]] = {
    **dict.fromkeys(("return_drop", "clean_filter_drop", "supply_drop"), ("Pa", 750.0)),
    **dict.fromkeys(("return_conductance", "supply_conductance"), ("W/K", 500.0)),
    **dict.fromkeys(("shell_conductance", "ground_conductance"), ("W/K", 5000.0)),
    **dict.fromkeys(("house_conductance", "conductance"), ("W/K", 5000.0)),
    "sun_share": ("K m²/W", 0.2),
    "vent_airflow": ("m³/s", 10.0),
    "moisture_gain": ("kg/s", 0.01),
    "leakage_coefficient": ("m³/s/Pa^0.65", 2.0),
    "natural_infiltration": ("m³/s", 5.0),
    "heat_capacity": ("J/K", 1e9),
    "volume": ("m³", 10_000.0),
    "moisture_buffer": ("-", 1000.0),
    "sun_area": ("m²", 200.0),
    "internal_gain": ("W", 50_000.0),
    "electricity_price": ("$/J", 3e-6),
}
# What a house may say of its thermostat and defrost board, each with its unit and the least and
# most that a technician can set or find; chosen. A defrost by demand has a difference above zero.
CONTROLS: dict[str, tuple[str, float, float]] = {
    "auxiliary_lockout": ("K", 240.0, 300.0),
    "auxiliary_droop": ("delta K", 0.0, 6.0),
    "emergency_heat": ("-", 0.0, 1.0),
    "defrost_interval": ("s", 600.0, 21600.0),
    "defrost_demand": ("delta K", 0.0, 20.0),
    "defrost_end_temperature": ("K", 275.0, 310.0),
    "defrost_limit": ("s", 60.0, 3600.0),
}
# Of a duct's drop, chosen: what the grille takes, and what branches, boots and registers take.
GRILLE_SHARE, BRANCH_SHARE = 0.4, 0.65  # [-]
CLOSED_DAMPER = 0.04  # a closed damper still leaks a little; common practice, no source


def site(file: Table, zone: str | None = None) -> Installation:
    """What stands in a site file.

    Parameters
    ----------
    file : Table
        As read.
    zone : str, optional
        Around all ducts, instead of what the file says.

    Returns
    -------
    Installation
        Its unit is put in by the caller.

    Raises
    ------
    ParameterFileError
        For what is missing or makes no sense.
    """
    named, zones = file.table("site"), file.table("zones")
    supply, back = (zone or named.word(side) for side in ("supply_zone", "return_zone"))
    unsized: Any = None
    return Installation(
        unit=unsized,
        ducts=_ducts(file.table("ducts")),
        supply_zone=_zone(zones.table(supply), supply),
        return_zone=_zone(zones.table(back), back),
        zones_shared=float(supply == back),
        controls=_controls(file),
        house=_house(file.table("house")),
    )


def _controls(file: Table) -> Controls:
    """The usual settings, but for what the table [controls] states."""
    if "controls" not in file.rows:
        return Controls()
    table, stated = file.table("controls"), {}
    for key in table.rows:
        if key not in CONTROLS:
            raise ParameterFileError(
                f"{table.name} has {short(key)}, which no house has; allowed are "
                f"{', '.join(CONTROLS)}."
            )
        unit, least, most = CONTROLS[key]
        stated[key] = table.number(key, unit)
        if not least <= stated[key] <= most:
            raise ParameterFileError(
                f"{table.name}: {key} must lie between {least:g} and {most:g} {unit}, not "
                f"{stated[key]:g}."
            )
    return Controls(**stated)


def _positive(table: Table, numbers: dict[str, float], may_be_zero: bool) -> dict[str, float]:
    for key, value in numbers.items():
        if value < 0.0 or (value == 0.0 and not may_be_zero):
            least = "zero or more" if may_be_zero else "more than zero"
            raise ParameterFileError(f"{table.name}: {key} must be {least}, not {value:g}.")
        unit, most = MOST.get(key, ("", value))
        if value > most:
            raise ParameterFileError(
                f"{table.name}: {key} must not exceed {most:g} {unit}, and {value:g} does."
            )
    return numbers


def _house(table: Table) -> House:
    return House(
        **_positive(
            table,
            table.numbers(
                conductance="W/K",
                leakage_coefficient="m³/s/Pa^0.65",
                heat_capacity="J/K",
                volume="m³",
                moisture_buffer="-",
            ),
            may_be_zero=False,
        ),
        **_positive(
            table,
            table.numbers(
                sun_area="m²",
                internal_gain="W",
                moisture_gain="kg/s",
                natural_infiltration="m³/s",
                electricity_price="$/J",
            ),
            may_be_zero=True,
        ),
    )


def _ducts(table: Table) -> Ducts:
    numbers = _duct_numbers(table)
    shares, runs = table.bare_column("room_shares"), table.bare_column("room_runs")
    if abs(sum(shares) - 1.0) > 1e-9 or len(shares) != len(runs):
        raise ParameterFileError(
            f"{table.name}: room_shares must add up to 1 and pair with room_runs."
        )
    if min(shares) <= 0.0 or min(runs) <= 0.0 or len(runs) > MOST_ROOMS:
        raise ParameterFileError(
            f"{table.name}: room_shares and room_runs must be positive, of {MOST_ROOMS} rooms "
            "at most."
        )
    return Ducts(
        return_grille_drop=GRILLE_SHARE * numbers["return_drop"],
        supply_branch_drop=BRANCH_SHARE * numbers["supply_drop"],
        filter_loading=1.0,
        slot_area=0.0,
        built_return_leak=numbers["return_leak"],
        built_supply_leak=numbers["supply_leak"],
        room_shares=shares,
        room_runs=runs,
        damper_openings=tuple(1.0 for _ in runs),
        room_zones=_room_zones(table, len(runs)),
        zone_dampers=((1.0, CLOSED_DAMPER), (1.0, CLOSED_DAMPER)),
        bypass_share=0.0,
        zoned_bypass_share=_share(table, "zoned_bypass_share"),
        **numbers,
    )


def _duct_numbers(table: Table) -> dict[str, float]:
    numbers = _positive(
        table,
        table.numbers(return_drop="Pa", clean_filter_drop="Pa", supply_drop="Pa"),
        may_be_zero=False,
    ) | _positive(
        table,
        table.numbers(
            return_leak="-", supply_leak="-", return_conductance="W/K", supply_conductance="W/K"
        ),
        may_be_zero=True,
    )
    for key in ("return_leak", "supply_leak"):
        if numbers[key] > LARGEST_LEAK:
            raise ParameterFileError(
                f"{table.name}: {key} is a share of the airflow and must not exceed "
                f"{LARGEST_LEAK:g}, {numbers[key]:g} does."
            )
    return numbers


def _room_zones(table: Table, rooms: int) -> tuple[float, ...]:
    """Which of two zones each room belongs to; all to the first where nothing is said."""
    if "room_zones" not in table.rows:
        return (1.0,) * rooms
    zones = table.bare_column("room_zones")
    if len(zones) != rooms or not set(zones) <= {1.0, 2.0}:
        raise ParameterFileError(f"{table.name}: room_zones must say 1 or 2 for each room.")
    return zones


def _share(table: Table, key: str) -> float:
    value = table.rows.get(key, 0.0)
    if isinstance(value, bool) or not isinstance(value, int | float) or not 0.0 <= value <= 0.9:
        raise ParameterFileError(f"{table.name}: {key} must be a share from 0 to 0.9.")
    return float(value)


def _zone(table: Table, kind: str) -> Zone:
    numbers = _positive(
        table,
        table.numbers(
            shell_conductance="W/K",
            sun_share="K m²/W",
            ground_conductance="W/K",
            ground_temperature="K",
            house_conductance="W/K",
            vent_airflow="m³/s",
            moisture_gain="kg/s",
        ),
        may_be_zero=True,
    )
    if not 250.0 <= numbers["ground_temperature"] <= 320.0:
        raise ParameterFileError(
            f"{table.name}: a ground_temperature of {numbers['ground_temperature']:g} K is no "
            "ground's; it must lie between 250 and 320."
        )
    if not numbers["shell_conductance"] + numbers["house_conductance"]:
        raise ParameterFileError(f"{table.name}: the space must touch the shell or the rooms.")
    return Zone(kind=kind, **numbers)
