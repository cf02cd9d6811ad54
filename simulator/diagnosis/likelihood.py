"""How well each cell of the table explains what was shown."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from simulator.calls.call_file import CallFile
from simulator.calls.events import Measured
from simulator.calls.sound_units import sound_unit
from simulator.calls.traces import FILTER_OUT, GAS_LOST, LEAST_LOST, MOST_LOST
from simulator.diagnosis.expected import Expected, conditions_of
from simulator.diagnosis.scatter import CHARGE, NAMES, OUTDOOR, OUTDOOR_COLUMN, TORQUE
from simulator.diagnosis.seen_parts import plain
from simulator.diagnosis.tool_errors import Error, error_of, felt
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.tools import TOOLS
from simulator.plant import energy
from simulator.plant.timeline import MIGRATED_SHARE, RETURN_TIME
from simulator.quantities.values import Array

UNSEEN = 0.01  # of a cell's plants answer in words that none of the few looked at gave [-]
UNSURE = 0.3  # of what has not settled yet [-]
CHARGE_COLUMN, TORQUE_COLUMN = NAMES.index("charge"), NAMES.index("torque")
UNFILTERED = 0.10  # of a blower's torque: 5 % more air, from 3 % with a clean filter up [-]


@dataclass(frozen=True, slots=True, eq=False)
class Take:
    """One numeric reading, taken or only thought of.

    Parameters
    ----------
    measurement : str
        What.
    mean : array
        Expected, shape (cells,). [-]
    loads : array
        Shape (cells, draws). [-]
    own : array
        Standard deviation of what stays with this measurement, shape (cells,). [-]
    error : Error
        Of the tool.
    """

    measurement: str
    mean: Array
    loads: Array
    own: Array
    error: Error


@dataclass(frozen=True, slots=True)
class When:
    """The circumstances of a take.

    Parameters
    ----------
    minute : float
        After arrival, in minutes.
    is_running : bool
        Whether the system is called on.
    settled : float
        Since the last change, in minutes.
    prepared : frozenset
        Steps done before.
    technique : str
        How.
    left : frozenset
        What carelessness had left in the unit.
    """

    minute: float
    is_running: bool
    settled: float
    prepared: frozenset[str]
    technique: str
    left: frozenset[str] = frozenset()


def take_of(measurement: str, when: When, table: Expected, call: CallFile) -> Take:
    """What a measurement would give in every cell.

    Parameters
    ----------
    measurement : str
        What.
    when : When
        Circumstances.
    table : Expected
        Of the call.
    call : CallFile
        For the course of the weather.

    Returns
    -------
    Take
    """
    item = MEASUREMENTS[measurement]
    now, other = table.running, table.resting
    if not when.is_running:
        now, other = other, now
    column = table.column[measurement]
    mean, loads = now.mean[:, column], now.loads[:, column, :]
    rest = now.rest[:, column]
    warmer = outdoor_at(call, when.minute) - conditions_of(call).outdoor_temperature
    mean = mean + loads[:, OUTDOOR_COLUMN] * float(warmer) / OUTDOOR
    mean, rest = _disturbed(when.left, call, (mean, rest, loads))
    seconds = 60.0 * max(when.settled, 0.0)
    if when.is_running and item.truth is not None:
        away = MIGRATED_SHARE * float(np.exp(-seconds / RETURN_TIME)) / CHARGE
        mean = mean - away * loads[:, CHARGE_COLUMN]
        rest = np.hypot(rest, UNSURE * away * loads[:, CHARGE_COLUMN])
    if item.truth is not None:
        left = float(np.exp(-seconds / TOOLS[item.tool_id].lag))
        gap = left * (other.mean[:, column] - mean)
        mean, rest = mean + gap, np.hypot(rest, UNSURE * gap)
    shown, spread = felt(item, when.technique, mean, table.sound)
    error = error_of(item, when.prepared)
    return Take(
        measurement=measurement,
        mean=shown * error.drifted,
        loads=loads,
        own=np.sqrt(rest**2 + spread**2 + error.own**2),
        error=error,
    )


def _disturbed(
    left: frozenset[str], call: CallFile, now: tuple[Array, Array, Array]
) -> tuple[Array, Array]:
    """Mean and spread once hoses have taken gas, or the filter stands beside its slot."""
    mean, rest, loads = now
    if GAS_LOST in left:
        plate = float(sound_unit(call.unit, call.metering, call.house).unit.plate_charge)
        usual, wide = 0.5 * (LEAST_LOST + MOST_LOST), (MOST_LOST - LEAST_LOST) / np.sqrt(12.0)
        each = loads[:, CHARGE_COLUMN] / (CHARGE * plate)
        mean, rest = mean - usual * each, np.hypot(rest, wide * each)
    if FILTER_OUT in left:
        # As a stronger blower would do it; how much depends on the filter nobody sees now.
        more = UNFILTERED / TORQUE * loads[:, TORQUE_COLUMN]
        mean, rest = mean + more, np.hypot(rest, more)
    return mean, rest


def outdoor_at(call: CallFile, minute: float) -> float:
    """Outdoor temperature by the day's course.

    Parameters
    ----------
    call : CallFile
        Gives the day.
    minute : float
        After arrival, in minutes.

    Returns
    -------
    float
        [K]
    """
    hour = np.asarray(call.arrival_hour + minute / 60.0)
    return float(energy.outdoor_temperature(call.weather, hour))


def covariance(one: Take, other: Take) -> Array:
    """How two different takes move together in each cell.

    Parameters
    ----------
    one, other : Take
        Two takes.

    Returns
    -------
    array
        Shape (cells,), in SI of both. [-]
    """
    found: Array = np.einsum("ck,ck->c", one.loads, other.loads)
    product = one.mean * other.mean
    found = found + one.error.drift * other.error.drift * product
    if one.error.tool == other.error.tool:
        found = found + one.error.added * other.error.added
        found = found + one.error.scaled * other.error.scaled * product
    if one.measurement == other.measurement:
        found = found + one.own * other.own
    return found


def variance(one: Take) -> Array:
    """Of one take in each cell.

    Parameters
    ----------
    one : Take
        Which.

    Returns
    -------
    array
        Shape (cells,), in SI squared. [-]
    """
    return covariance(one, one) + one.error.fresh**2


def running_score(takes: Sequence[Take], shown: Sequence[float]) -> Array:
    """Logarithm of the density of the readings so far, after each of them.

    Readings of one plant lean on each other through its scatter and its tools, so they are
    judged together, each given those before it.

    Parameters
    ----------
    takes : sequence
        Oldest first.
    shown : sequence
        Values as shown, in SI. [-]

    Returns
    -------
    array
        Shape (readings, cells); the steps of each reading. [-]
    """
    count, cells = len(takes), takes[0].mean.size
    matrix = np.empty((cells, count, count))
    for row, one in enumerate(takes):
        matrix[:, row, row] = variance(one) * (1.0 + 1e-9) + 1e-18
        for column in range(row):
            matrix[:, row, column] = matrix[:, column, row] = covariance(one, takes[column])
    scale = np.sqrt(np.einsum("cii->ci", matrix))
    factor = np.linalg.cholesky(
        matrix / scale[:, :, None] / scale[:, None, :] + 1e-9 * np.eye(count)
    )
    left = np.array([value - one.mean for one, value in zip(takes, shown, strict=True)]).T / scale
    steps = np.linalg.solve(factor, left[:, :, None])[:, :, 0]
    width = scale * np.einsum("cii->ci", factor)
    found: Array = (-0.5 * steps**2 - np.log(width)).T
    return found


def told_score(event: Measured, table: Expected) -> Array:
    """Logarithm of how likely the kind of answer is in each cell: these words, or a number.

    Parameters
    ----------
    event : Measured
        A reading.
    table : Expected
        Of the call.

    Returns
    -------
    array
        Shape (cells,). [-]
    """
    name, way = event.reading.measurement, event.reading.technique
    told = table.loosely.get(
        (name, way, event.is_running), table.words.get((name, event.is_running))
    )
    if told is None:
        return np.zeros(table.owner.size)
    if event.reading.value is not None:
        share = told.number
    else:
        share = told.words.get(plain(event.reading.words or ""), np.zeros(table.owner.size))
    found: Array = np.log(UNSEEN + (1.0 - 2.0 * UNSEEN) * share)
    return found
