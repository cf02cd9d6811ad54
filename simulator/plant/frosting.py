"""Frost settling on the outdoor coil while the unit heats, and what it takes away."""

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np

from simulator.components.outdoor_coil import STILL_SHARE, OutdoorCoil
from simulator.plant import steady
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.properties import moist_air
from simulator.quantities.values import Array

FREEZING = 273.15  # [K]
MELTING_HEAT = 333.6e3  # of ice [J/kg], CRC Handbook of Chemistry and Physics
CLOSING = np.array([0.0, 0.35, 0.6, 0.82, 0.92])  # of the ice that closes the coil
# A next group of them is solved only where frost gets past the last: closing coils solve slowly.
GROUPS = ((1, 2), (3,), (4,))
STEP = 60.0  # [s]
COAT = 0.3  # [K] below freezing over which frost begins to hold; smooths the edge
WATCHED = 6 * 3600.0  # running time with no defrost that is looked at [s]


class Frosting(NamedTuple):
    """The plant over frost (columns) at each of some conditions (rows).

    Parameters
    ----------
    masses : array
        Of ice, one for each column. [kg]
    capacity : array
        Delivered, sensible. [W]
    compressor, fan, blower : array
        Electrical, of each part. [W]
    rate : array
        Of frost. [kg/s]
    evaporating : array
        Of the outdoor coil, whose sensor tells it. [K]
    surface : array
        Of that coil's metal, on which frost settles. [K]
    reversed_heat : float
        To the coil in defrost. [W]
    reversed_cooling : float
        Sensible, taken from the rooms in defrost. [W]
    reversed_power : float
        Of the compressor in defrost. [W]
    """

    masses: Array
    capacity: Array
    compressor: Array
    fan: Array
    blower: Array
    rate: Array
    evaporating: Array
    surface: Array
    reversed_heat: float
    reversed_cooling: float
    reversed_power: float


class Board(NamedTuple):
    """What starts a defrost.

    Parameters
    ----------
    standing : float
        Ice that no defrost takes off. [kg]
    until : float
        Running time to the next defrost at the latest. [s]
    demand : float
        How much colder than clean the coil starts one, 0 where it does not. [delta K]
    thaw : float
        Frost that melts while the unit stands, over its running time. [kg/s]
    """

    standing: float
    until: float
    demand: float
    thaw: float = 0.0


_TABLES = (
    *("delivered_sensible", "compressor_power", "outdoor_fan_power"),
    *("blower_power", "frost_rate", "evaporating_temperature", "boiling_surface_temperature"),
)


def is_enabled(installation: Installation) -> bool:
    """Whether board and sensor can start a defrost.

    Parameters
    ----------
    installation : Installation
        Floats.

    Returns
    -------
    bool
    """
    return float(np.asarray(installation.controls.defrost_enabled)) >= 0.5


def board(installation: Installation) -> Board:
    """The defrost board as it stands.

    Parameters
    ----------
    installation : Installation
        Floats.

    Returns
    -------
    Board
    """
    controls = installation.controls
    if not is_enabled(installation):
        return Board(float(np.asarray(installation.unit.outdoor_coil.frost)), WATCHED, 0.0)
    demand = float(np.asarray(controls.defrost_demand))
    # A demand board looks at the coil alone, and lets six hours pass at most.
    until = float(np.asarray(controls.defrost_interval)) if demand == 0.0 else WATCHED
    return Board(0.0, until, demand)


def frosting(installation: Installation, conditions: Sequence[Conditions]) -> Frosting:
    """Solve the plant over frost, at several conditions at once.

    Parameters
    ----------
    installation : Installation
        Floats.
    conditions : sequence
        Heating.

    Returns
    -------
    Frosting
        With the reversed cycle, whose heat goes to ice at its melting point. Frost that is
        never reached is as the last that is.
    """
    coil = installation.unit.outdoor_coil
    masses = np.asarray(CLOSING * coil.frost_capacity)
    stood = [_with_coil(installation, replace(coil, frost=float(mass))) for mass in masses]
    # Melting ice lies on the fins: a sink at its melting point as good as the clean coil's air.
    iced = _with_coil(installation, replace(coil, frost=0.0, blocked_fraction=0.0))
    melting = replace(conditions[0], mode="cooling", outdoor_temperature=FREEZING)
    clean = _values(
        steady.solve_many([*[stood[0]] * len(conditions), iced], [*conditions, melting])
    )
    tables = np.repeat(clean[:, :-1, None], len(masses), axis=2)
    made = {name: float(clean[place, -1]) for place, name in enumerate(_FIELDS)}
    found = _frosting(masses, tables, made)
    for group in GROUPS:
        reached = [grown(found, row, board(installation))[-1] for row in range(len(conditions))]
        rows = np.flatnonzero(np.asarray(reached) > masses[group[0] - 1])
        if not rows.size:
            break
        point = steady.solve_many(
            [stood[column] for column in group] * len(rows),
            [conditions[int(row)] for row in rows for _ in group],
        )
        now = _values(point).reshape(len(_FIELDS), len(rows), len(group))
        tables[:, rows, group[0] :] = now[:, :, -1:]
        tables[:, rows, group[0] : group[-1] + 1] = now
        found = _frosting(masses, tables, made)
    return found


_FIELDS = (*_TABLES, "heat_rejected")


def _values(point: OperatingPoint) -> Array:
    """Each field over the batch; stopped by a switch, it neither heats nor frosts on."""
    state = np.asarray(point.state)
    rows = [np.broadcast_to(np.asarray(getattr(point, name)), state.shape) for name in _FIELDS]
    table = np.array(rows, dtype=np.float64)
    for name in ("delivered_sensible", "frost_rate"):
        place = _FIELDS.index(name)
        table[place] = np.where(state == "running", table[place], 0.0)
    return table


def _frosting(masses: Array, tables: Array, made: dict[str, float]) -> Frosting:
    capacity, compressor, fan, blower, rate, boils, surface = tables[: len(_TABLES)].copy()
    return Frosting(
        masses=masses,
        capacity=capacity,
        compressor=compressor,
        fan=fan,
        blower=blower,
        rate=rate,
        evaporating=boils,
        surface=surface,
        reversed_heat=made["heat_rejected"],
        reversed_cooling=made["delivered_sensible"],
        reversed_power=made["compressor_power"],
    )


def thawing(installation: Installation, sky: Conditions) -> float:
    """Frost that melts off a coil that stands, by the draught through it.

    Parameters
    ----------
    installation : Installation
        Floats.
    sky : Conditions
        Floats.

    Returns
    -------
    float
        None where the outdoor wet bulb is below freezing. [kg/s]

    References
    ----------
    .. [1] Heat balance: air leaves saturated at the melting point. That a coil clears itself
       between calls some degrees above freezing is common practice, no source.
    """
    coil = installation.unit.outdoor_coil
    air, water = sky.outdoor_temperature, sky.outdoor_humidity_ratio
    wet = float(moist_air.saturated_humidity_ratio(FREEZING, sky.pressure))
    warmer = float(moist_air.enthalpy(air, water)) - float(moist_air.enthalpy(FREEZING, wet))
    draught = STILL_SHARE * coil.airflow * moist_air.density(air, water, sky.pressure)
    return float(draught) * max(warmer, 0.0) / MELTING_HEAT


def _with_coil(installation: Installation, coil: OutdoorCoil) -> Installation:
    return replace(installation, unit=replace(installation.unit, outdoor_coil=coil))


def grown(frosted: Frosting, row: int, until: Board) -> Array:
    """Frost at each step, quasi-steady, until the board calls for a defrost.

    Parameters
    ----------
    frosted : Frosting
        As solved.
    row : int
        Which conditions.
    until : Board
        What starts the defrost.

    Returns
    -------
    array
        [kg]
    """
    masses, cold = frosted.masses, FREEZING - frosted.evaporating[row]
    # Water that settles freezes only where the metal is below freezing.
    icy = FREEZING - frosted.surface[row]
    rate = frosted.rate[row] * np.clip(icy / COAT, 0.0, 1.0)
    frost = [min(until.standing, float(masses[-1]))]
    for _ in range(round(until.until / STEP)):
        middle = frost[-1] + 0.5 * STEP * np.interp(frost[-1], masses, rate)
        gained = STEP * np.interp(middle, masses, rate)
        left = max(frost[-1] + gained - STEP * until.thaw, frost[0])
        frost.append(float(min(left, masses[-1])))
        if until.demand > 0.0 and np.interp(frost[-1], masses, cold) >= cold[0] + until.demand:
            break
    return np.asarray(frost)
