"""True values behind the ways to find airflow and leakage."""

from dataclasses import replace
from functools import lru_cache

import numpy as np

from simulator.components.air_resistance import coil_resistance
from simulator.components.blower import Blower, run_against
from simulator.components.indoor_coil import IndoorCoil
from simulator.instruments.part_values import USUAL_COIL_DROP
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.quantities.kinds import BTU_PER_HOUR, CFM
from simulator.quantities.values import Values

TABLE_DENSITY = 1.2  # of the air a maker's blower table is printed for [kg/m³]
# 1.08 Btu/(h cfm °F), the sea-level figure everybody uses; common practice, no source.
RISE_FACTOR = 1.08 * BTU_PER_HOUR / (CFM * 5.0 / 9.0)  # [J/(m³ K)]
TEST_PRESSURE = 25.0  # ASTM E1554 [Pa]
LEAK_EXPONENT = 0.6  # of duct leaks, ASTM E1554
SLOT_DISCHARGE = 0.6  # of a sharp-edged opening [-]
AIR_DENSITY = 1.2  # of duct air at the test [kg/m³]
# Leaks sit along the run: half of the run's drop drives the mean leak; chosen.
DRIVING_SHARE = 0.5
OUTDOOR_TRACER = 420e-6  # [-]
ROOM_TRACER = 1600e-6  # after the release; chosen [-]


def table_airflow(installation: Installation, point: OperatingPoint) -> float:
    """Airflow a new blower of this model gives against the measured external static.

    Parameters
    ----------
    installation : Installation
        Gives the model.
    point : OperatingPoint
        Gives the static.

    Returns
    -------
    float
        What the table says, whatever state the blower is in. [m³/s]
    """
    if float(point.airflow) <= 0.0:
        return 0.0
    blower, coil = installation.unit.blower, installation.unit.indoor_coil
    static, flow = _table(blower, coil)
    return float(np.interp(float(point.total_external_static), static, flow))


@lru_cache(maxsize=64)
def _table(blower: Blower, coil: IndoorCoil) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """External static, rising, and airflow, with a sound motor and a wet coil."""
    sound = replace(blower, torque_fraction=1.0)
    # Printed for the coil as it left the works, whatever sits on it now.
    clean = min(float(coil.wet_pressure_drop), USUAL_COIL_DROP)
    behind = coil_resistance(clean, coil.rated_airflow, TABLE_DENSITY)
    square = np.geomspace(20.0, 6000.0, 80)
    flow = np.asarray(run_against(sound, square, behind, TABLE_DENSITY).airflow)
    external = square * flow**2
    order = np.argsort(external)
    return tuple(external[order].tolist()), tuple(flow[order].tolist())


def rise_airflow(point: OperatingPoint) -> float:
    """Airflow by watts and temperature rise, worked with the sea-level factor.

    Parameters
    ----------
    point : OperatingPoint
        With strips on and the compressor off.

    Returns
    -------
    float
        [m³/s]
    """
    rise = float(point.supply_plenum_temperature) - float(point.air_handler_return_temperature)
    if rise <= 0.0:
        return 0.0
    return float(point.air_handler_power) / (RISE_FACTOR * rise)


def rise_unfit(point: OperatingPoint) -> str | None:
    """Why the strips' rise says nothing now.

    Parameters
    ----------
    point : OperatingPoint
        What the plant does.

    Returns
    -------
    str or None
        A sentence.
    """
    if float(point.strip_power) <= 0.0:
        return "Not taken: the strips are off, there is no rise to divide by."
    if float(point.compressor_power) > 0.0:
        return "Not taken: the compressor runs, and its heat or cold is in the rise too."
    return None


def duct_leakage(installation: Installation, point: OperatingPoint) -> Values:
    """Flow of the calibrated fan that holds all ducts at 25 Pa, registers sealed.

    The holes are those that lose their part of the fan flow at the ducts' own pressures.

    Parameters
    ----------
    installation : Installation
        Gives leaks and drops.
    point : OperatingPoint
        Not used: a hole is a hole.

    Returns
    -------
    float
        [m³/s]

    References
    ----------
    .. [1] ASTM E1554, Determining Air Leakage of Air Distribution Systems by Fan
       Pressurization.
    """
    del point
    ducts = installation.ducts
    rated = float(np.asarray(installation.unit.rated_airflow))
    total: Values = 0.0
    for share, drop in (
        (ducts.supply_leak, ducts.supply_drop),
        (ducts.return_leak, ducts.return_drop),
    ):
        driving = DRIVING_SHARE * drop
        total = total + share * rated * (TEST_PRESSURE / driving) ** LEAK_EXPONENT
    jet = np.sqrt(2.0 * TEST_PRESSURE / AIR_DENSITY)
    return total + SLOT_DISCHARGE * ducts.slot_area * float(jet)


def tracer_in_rooms(point: OperatingPoint) -> float:
    """Carbon dioxide at the grille after the release, [-]."""
    del point
    return ROOM_TRACER


def tracer_around_return(installation: Installation, point: OperatingPoint) -> float:
    """Carbon dioxide in the space around the return.

    Outdoor air replaces what the vents and the return leak take; a supply leak into the same
    space feeds it with the air of the coil.

    Parameters
    ----------
    installation : Installation
        Gives the vents and the bypass.
    point : OperatingPoint
        Gives the flows.

    Returns
    -------
    float
        A steady balance. [-]
    """
    share = _leak_share(installation, point)
    leak = float(point.supply_leak_airflow) * float(installation.zones_shared)
    drawn = max(float(point.return_leak_airflow) - leak, 0.0)
    fresh = float(installation.return_zone.vent_airflow) + drawn
    if fresh + leak <= 0.0:
        return OUTDOOR_TRACER
    fed = fresh * OUTDOOR_TRACER + leak * (1.0 - share) * ROOM_TRACER
    return fed / (fresh + leak * (1.0 - share))


def tracer_at_air_handler(installation: Installation, point: OperatingPoint) -> float:
    """Entering the coil: rooms and leak by their flows; a bypass brings back the same mix, [-]."""
    zone = tracer_around_return(installation, point)
    return ROOM_TRACER + _leak_share(installation, point) * (zone - ROOM_TRACER)


def _leak_share(installation: Installation, point: OperatingPoint) -> float:
    fresh = float(point.airflow) * (1.0 - float(installation.ducts.bypass_share))
    return float(point.return_leak_airflow) / fresh if fresh > 0.0 else 0.0


def still(point: OperatingPoint) -> str | None:
    """Why a test of moving air says nothing now.

    Parameters
    ----------
    point : OperatingPoint
        What the plant does.

    Returns
    -------
    str or None
        A sentence.
    """
    return None if float(point.airflow) > 0.0 else "Not taken: the blower stands still."
