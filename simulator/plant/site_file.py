"""House, ducts and the spaces around them, from a site file."""

from typing import Any

from simulator.plant.controls import Controls
from simulator.plant.installation import Ducts, House, Installation, Zone
from simulator.plant.parameter_file import ParameterFileError, Table

LARGEST_LEAK = 0.6  # beyond this a duct carries hardly anything [-]; chosen
MOST_ROOMS = 40
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
        controls=Controls(),
        house=_house(file.table("house")),
    )


def _positive(table: Table, numbers: dict[str, float], may_be_zero: bool) -> dict[str, float]:
    for key, value in numbers.items():
        if value < 0.0 or (value == 0.0 and not may_be_zero):
            least = "zero or more" if may_be_zero else "more than zero"
            raise ParameterFileError(f"{table.name}: {key} must be {least}, not {value:g}.")
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
