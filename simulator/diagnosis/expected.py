"""What every measurement would show under every hypothesis, with what moves it."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from threading import Lock, Thread

import numpy as np

from simulator.calls.call_file import CallFile
from simulator.calls.kept_tables import kept
from simulator.calls.sound_units import sound_unit
from simulator.diagnosis.hypotheses import Hypothesis, hypotheses
from simulator.diagnosis.scatter import Around
from simulator.diagnosis.seen_parts import Shown, shown
from simulator.diagnosis.solutions import Solutions, solutions
from simulator.diagnosis.true_values import PARTS, true_values
from simulator.instruments.techniques import careful
from simulator.plant import energy, stacking
from simulator.plant.conditions import Conditions
from simulator.plant.operating_point import OperatingPoint
from simulator.quantities.values import Array

MIDDLE_OF_VISIT = 60.0  # the table is for this minute; in minutes after arrival
CAREFUL = careful("").id
RIDGE = 0.5  # holds a fit to few draws near its mean [-]
# Against whole days solved one by one: run time within 3 %; starts, which turn back at half
# load and are no straight line, within 10 %.
OF_A_DAY = {"run_time": 0.03, "starts": 0.10}
COUNTS_AS_NOISE = 0.02  # a fit to few draws misses at least this part of a spread [-]


@dataclass(frozen=True, slots=True, eq=False)
class Numbers:
    """Expected values of every measurement in one state of the switch.

    Parameters
    ----------
    mean : array
        Shape (cells, measurements), in SI. [-]
    loads : array
        Change by one standard deviation of each draw, shape (cells, measurements, draws). [-]
    rest : array
        Standard deviation of what the draws leave open, shape (cells, measurements). [-]
    """

    mean: Array
    loads: Array
    rest: Array


@dataclass(frozen=True, slots=True, eq=False)
class Expected:
    """The table of one call; a cell is a hypothesis in one state of the plant.

    Parameters
    ----------
    listed : tuple
        Hypotheses.
    owner : array
        Each cell's hypothesis, by number. [-]
    weight : array
        How likely each cell is before anything is known. [-]
    column : mapping
        Of each measurement with a number.
    running, resting : Numbers
        While it runs, and off for long.
    words : mapping
        Of each measurement that can answer in words, by whether the system runs.
    loosely : mapping
        The same where it is looked at or felt carelessly, by technique too.
    sound : OperatingPoint
        The house with nothing wrong, running; what a careless technique is worked out with.
    """

    listed: tuple[Hypothesis, ...]
    owner: np.ndarray
    weight: Array
    column: Mapping[str, int]
    running: Numbers
    resting: Numbers
    words: Mapping[tuple[str, bool], Shown]
    loosely: Mapping[tuple[str, str, bool], Shown]
    sound: OperatingPoint


_ONE_AT_A_TIME = Lock()  # a table is never worked out twice


def conditions_of(call: CallFile) -> Conditions:
    """Weather and rooms of a call about the middle of a visit.

    Parameters
    ----------
    call : CallFile
        Its public part.

    Returns
    -------
    Conditions
    """
    hour = np.asarray(call.arrival_hour + MIDDLE_OF_VISIT / 60.0)
    return Conditions(
        outdoor_temperature=float(energy.outdoor_temperature(call.weather, hour)),
        outdoor_humidity_ratio=call.weather.humidity_ratio,
        indoor_temperature=call.room_temperature,
        indoor_humidity_ratio=call.room_humidity_ratio,
        solar=float(energy.sun(call.weather, hour)),
        voltage=call.voltage,
        mode=call.mode,
    )


def expected_at(call: CallFile) -> Expected:
    """The table of a call, worked out once a process.

    Parameters
    ----------
    call : CallFile
        Its public part: the key is not asked.

    Returns
    -------
    Expected
    """
    with _ONE_AT_A_TIME:
        return _kept(call.unit, call.metering, call.house, conditions_of(call))


def begin(call: CallFile) -> Thread:
    """Work out the table of a call beside whatever else the process does.

    Parameters
    ----------
    call : CallFile
        Its public part.

    Returns
    -------
    Thread
        Started; it ends with the process. Whoever asks for the table meanwhile waits for it.
    """
    beside = Thread(target=expected_at, args=(call,), name="table of a call", daemon=True)
    beside.start()
    return beside


@lru_cache(maxsize=24)
def _kept(unit: str, metering: str, house: str, conditions: Conditions) -> Expected:
    def made() -> Expected:
        installation = sound_unit(unit, metering, house)
        mode = conditions.mode
        return expected(Around(installation, conditions), hypotheses(mode, metering), mode=mode)

    return kept((unit, metering, house, conditions), made)


def expected(around: Around, listed: tuple[Hypothesis, ...], *, mode: str) -> Expected:
    """The table of a house in given weather.

    Parameters
    ----------
    around : Around
        The nominal house and today's conditions.
    listed : tuple
        Hypotheses.
    mode : str
        What is called for.

    Returns
    -------
    Expected
    """
    solved = solutions(around, listed)
    cells = _cells(solved)
    owner = np.array([solved.owner[rows[0]] for rows in cells])
    drawn = np.bincount(solved.owner, minlength=len(listed))
    share = np.array([len(rows) for rows in cells]) / drawn[owner]
    column, on, off = true_values(solved, around, mode)
    told = {
        (name, way, is_running): one
        for is_running in (True, False)
        for (name, way), one in shown(solved, cells, is_running=is_running).items()
    }
    words = {(name, on): one for (name, way, on), one in told.items() if way == CAREFUL}
    numbers = _from_sample(
        _widened(_fitted(on, solved, cells), column), column, words, is_running=True
    )
    return Expected(
        listed=listed,
        owner=owner,
        weight=np.array([one.weight for one in listed])[owner] * share,
        column=column,
        running=numbers,
        resting=_from_sample(
            _widened(_fitted(off, solved, cells), column), column, words, is_running=False
        ),
        words=words,
        loosely={key: one for key, one in told.items() if key[1] != CAREFUL},
        sound=stacking.chosen(solved.running, int(np.argmin(solved.owner))),
    )


def _cells(solved: Solutions) -> list[np.ndarray]:
    """Columns of one hypothesis in one state, cell by cell."""
    state = np.asarray(solved.running.state)
    found: dict[tuple[int, str], list[int]] = {}
    for place, key in enumerate(zip(solved.owner.tolist(), state.tolist(), strict=True)):
        found.setdefault(key, []).append(place)
    return [np.array(found[key]) for key in sorted(found)]


def _fitted(values: Array, solved: Solutions, cells: list[np.ndarray]) -> Numbers:
    """A straight line through each cell's draws."""
    width = solved.drawn.shape[1]
    shape = (len(cells), values.shape[1])
    mean, rest, loads = np.empty(shape), np.empty(shape), np.zeros((*shape, width))
    whole = [place for place, rows in enumerate(cells) if len(rows) == len(solved.drawn)]
    # Most cells hold every draw, and share one matrix.
    for group in [whole, *([place] for place in set(range(len(cells))) - set(whole))]:
        if not group:
            continue
        found = values[np.array([cells[place] for place in group])]
        fit, left = _lines(found, solved.drawn[solved.draw[cells[group[0]]]])
        mean[group] = found.mean(axis=1) + fit[:, 0]
        loads[group] = np.swapaxes(fit[:, 1:], 1, 2)
        degrees = max(found.shape[1] - width - 1, 2)
        spread = COUNTS_AS_NOISE * found.std(axis=1)
        rest[group] = np.sqrt((left**2).sum(axis=1) / degrees + spread**2)
    return Numbers(mean, loads, rest)


def _lines(found: Array, drawn: Array) -> tuple[Array, Array]:
    """Coefficients over the draws, and what they leave, about each cell's mean."""
    ones = np.column_stack([np.ones(len(drawn)), drawn])
    ridge = RIDGE * np.eye(ones.shape[1])
    ridge[0, 0] = 1e-9
    solver = np.linalg.solve(ones.T @ ones + ridge, ones.T)
    centred = found - found.mean(axis=1, keepdims=True)
    fit = solver @ centred
    return fit, centred - ones @ fit


def _widened(numbers: Numbers, column: Mapping[str, int]) -> Numbers:
    """Room for what the shortcut to a whole day leaves out."""
    rest = numbers.rest.copy()
    for name, share in OF_A_DAY.items():
        place = column[name]
        rest[:, place] = np.hypot(rest[:, place], share * numbers.mean[:, place])
    return replace(numbers, rest=rest)


def _from_sample(
    numbers: Numbers,
    column: Mapping[str, int],
    words: Mapping[tuple[str, bool], Shown],
    *,
    is_running: bool,
) -> Numbers:
    """Numbers of measurements that take the parts as fitted, from their own sample."""
    mean, rest = numbers.mean.copy(), numbers.rest.copy()
    for (name, state), told in words.items():
        if state != is_running or name in PARTS:
            continue
        if told.mean is not None and told.spread is not None:
            mean[:, column[name]], rest[:, column[name]] = told.mean, told.spread
    return replace(numbers, mean=mean, rest=rest)
