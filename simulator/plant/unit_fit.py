"""The scaled reference unit drawn to the rated points of a data sheet."""

from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from simulator.plant import sizing, steady, unit_levers, unit_scaling
from simulator.plant.data_sheet import PublishedUnit
from simulator.plant.installation import Installation, Unit
from simulator.plant.operating_point import OperatingPoint
from simulator.plant.parameter_file import ParameterFileError
from simulator.plant.rated_points import around, held, kelvin
from simulator.plant.unit_levers import LEVERS
from simulator.quantities.values import Array

ROUNDS, NEAR = 12, 0.008
WORST = 0.15  # a unit further than this from a rated point is none [-]; chosen
WARM = (47.0, 43.0)  # dry and wet bulb of AHRI 210/240 H1, where heating is sized [°F]
HEATING_HOLD = (4.5, 3.4)  # superheat and subcooling while heating at 47 °F [delta K]; chosen


CAPACITY_WEIGHT, EFFICIENCY_WEIGHT, SHARE_WEIGHT = 0.005, 0.01, 0.01
STEP, LONGEST_STEP = 0.02, 0.4


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """A published unit and what became of it.

    Parameters
    ----------
    published : PublishedUnit
        As stated.
    unit : Unit
        Sized, with thermostatic valves.
    capacities, efficiencies : tuple
        At each rated point, net of the blower. [W], [-]
    sensible_heat_ratio : float
        At the first point, net of the blower. [-]
    compressor_current : float
        At the first point. [A]
    moved : tuple
        Each lever over the scaled guess, in the order of ``LEVERS``. [-]
    """

    published: PublishedUnit
    unit: Unit
    capacities: tuple[float, ...]
    efficiencies: tuple[float, ...]
    sensible_heat_ratio: float
    compressor_current: float
    moved: tuple[float, ...]


class _Trial(NamedTuple):
    unit: Unit
    outputs: Array  # logarithms, in the order of the targets
    current: float


class _Task(NamedTuple):
    """What a fit works on, and by what its trials are judged."""

    sheet: PublishedUnit
    guess: Unit
    site: Installation
    targets: Array
    weights: Array
    beliefs: Array


def fit(sheet: PublishedUnit, reference: Unit, site: Installation) -> Fit:
    """Draw a unit to its rated points.

    Gauss-Newton on logarithms, each lever held to its guess by a belief. The first slopes
    come from one batch with superheat and subcooling held; Broyden's update carries them on,
    while every trial is sized and settled whole.

    Parameters
    ----------
    sheet : PublishedUnit
        Checked.
    reference : Unit
        Unsized, described part by part.
    site : Installation
        For its air path; its unit is put in here.

    Returns
    -------
    Fit

    Raises
    ------
    ParameterFileError
        If the unit cannot run at its rated points, or comes near them only by far.
    """
    guess = unit_scaling.scaled(reference, sheet)
    targets, weights = _targets(sheet)
    beliefs = np.array([lever.belief for lever in LEVERS])
    place = np.zeros(len(LEVERS))
    task = _Task(sheet, guess, site, targets, weights, beliefs)
    trial = _tried(task, place)
    if trial is None:
        raise ParameterFileError(f"{sheet.name} cannot be made to run at its rated points.")
    slopes, may_renew = _slopes(sheet, trial.unit, site), True
    for _ in range(ROUNDS):
        step = _step(slopes / weights[:, None], (trial.outputs - targets) / weights, place, beliefs)
        found = _better(task, place, trial, step)
        if found is None:
            # The held slopes have misled: take true ones, once.
            close = float(np.max(np.abs(trial.outputs - targets))) < NEAR
            if close or not may_renew:
                break
            slopes, may_renew = _true_slopes(task, place, trial), False
            continue
        taken, gained = found[0] - place, found[1].outputs - trial.outputs
        place, trial = found
        length = float(taken @ taken)
        if length < 1e-6 or float(np.max(np.abs(gained))) < 3e-4:
            break
        slopes = slopes + np.outer(gained - slopes @ taken, taken) / length
    _need_near(sheet, trial, targets)
    return _fit(sheet, trial, np.exp(place))


def _cost(task: _Task, place: Array, trial: _Trial) -> float:
    missed = (trial.outputs - task.targets) / task.weights
    return float(np.sum(missed**2) + np.sum((place / task.beliefs) ** 2))


def _targets(sheet: PublishedUnit) -> tuple[Array, Array]:
    """Logarithms of what is stated: capacities, efficiencies, sensible share; their weights."""
    count = len(sheet.points)
    stated = [point.capacity for point in sheet.points]
    stated += [point.efficiency for point in sheet.points]
    weights = [CAPACITY_WEIGHT] * count + [EFFICIENCY_WEIGHT] * count + [SHARE_WEIGHT]
    return np.log([*stated, sheet.sensible_heat_ratio]), np.array(weights)


def _step(slopes: Array, misses: Array, place: Array, beliefs: Array) -> Array:
    """Least squares of misses and of strain against belief, capped."""
    matrix = np.vstack([slopes, np.diag(1.0 / beliefs)])
    right = -np.concatenate([misses, place / beliefs])
    step: Array = np.linalg.lstsq(matrix, right, rcond=None)[0]
    return step / max(1.0, float(np.max(np.abs(step))) / LONGEST_STEP)


def _better(task: _Task, place: Array, trial: _Trial, step: Array) -> tuple[Array, _Trial] | None:
    """A trial at the end of the step, or of a shorter one, that serves better."""
    low, high = (np.log([getattr(lever, end) for lever in LEVERS]) for end in ("low", "high"))
    for share in (1.0, 0.4, 0.1):
        moved = np.clip(place + share * step, low, high)
        after = _tried(task, moved)
        if after is not None and _cost(task, moved, after) < _cost(task, place, trial):
            return moved, after
    return None


def _true_slopes(task: _Task, place: Array, trial: _Trial) -> Array:
    """How the outputs answer to each lever, sized and settled whole."""
    columns = []
    for move in STEP * np.eye(len(LEVERS)):
        after = _tried(task, place + move)
        columns.append(
            np.zeros_like(trial.outputs)
            if after is None
            else (after.outputs - trial.outputs) / STEP
        )
    return np.stack(columns, axis=1)


def _rating(sheet: PublishedUnit) -> sizing.Rating:
    first = sheet.points[0]
    return sizing.Rating(
        outdoor_temperature=first.outdoor,
        indoor_temperature=kelvin(80.0),
        indoor_wet_bulb=kelvin(67.0),
        external_static=sheet.external_static,
        superheat=sheet.superheat,
        subcooling=sheet.subcooling,
        heating_outdoor_temperature=kelvin(WARM[0]),
        heating_outdoor_wet_bulb=kelvin(WARM[1]),
        heating_indoor_temperature=kelvin(70.0),
        heating_superheat=HEATING_HOLD[0],
        heating_subcooling=HEATING_HOLD[1],
    )


def _tried(task: _Task, place: Array) -> _Trial | None:
    """Sized and settled at every rated point with its own devices; None if it cannot run."""
    sheet, guess = task.sheet, unit_levers.moved(task.guess, place)
    try:
        sized = sizing.sized(replace(task.site, unit=guess), _rating(sheet))
    except sizing.SizingError:
        return None
    devices = [name == "txv" for name in sheet.metering]
    own = sizing.fitted(sized, is_thermostatic=devices[0], heating_thermostatic=devices[1])
    conditions = [around(point) for point in sheet.points]
    point = steady.solve_many([own] * len(conditions), conditions)
    if not bool(np.all(np.asarray(point.state) == "running")):
        return None
    outputs = _outputs(sheet, point)
    if outputs is None:
        return None
    current = float(np.asarray(point.compressor_current)[0])
    return _Trial(sized.unit, outputs, current)


def _outputs(sheet: PublishedUnit, point: OperatingPoint) -> Array | None:
    """Logarithms in the order of the targets, shape (k, ...)."""
    sign = np.array([1.0 if rated.mode == "cooling" else -1.0 for rated in sheet.points])
    capacity = point.gross_capacity - sign * point.blower_power
    efficiency = capacity / (point.outdoor_power + point.blower_power)
    share = (point.sensible_capacity - point.blower_power) / capacity
    found = np.concatenate([capacity, efficiency, np.asarray(share)[:1]])
    return np.log(found) if found.min() > 0.0 else None


def _slopes(sheet: PublishedUnit, unit: Unit, site: Installation) -> Array:
    """How the outputs answer to each lever, superheat and subcooling held."""
    count = len(LEVERS)
    places = [np.zeros(count), *(STEP * np.eye(count))]
    trials = [
        sizing.tight(replace(site, unit=unit_levers.moved(unit, place)), _rating(sheet))
        for place in places
    ]
    cooling, heating = [
        [point for point in sheet.points if point.mode == mode] for mode in ("cooling", "heating")
    ]
    found = [held(trials, cooling, (sheet.superheat, sheet.subcooling))]
    if heating:
        found.append(held(trials, heating, HEATING_HOLD))
    sizes = np.concatenate([part[0] for part in found])
    ratios = np.concatenate([part[1] for part in found])
    outputs = np.concatenate([sizes, ratios, found[0][2][:1]])
    return np.asarray((outputs[:, 1:] - outputs[:, :1]) / STEP)


def _need_near(sheet: PublishedUnit, trial: _Trial, targets: Array) -> None:
    names = [f"capacity for {point.name}" for point in sheet.points]
    names += [f"efficiency for {point.name}" for point in sheet.points]
    off = np.expm1(trial.outputs - targets)
    worst = int(np.argmax(np.abs(off)))
    if abs(off[worst]) > WORST:
        name = [*names, "sensible heat ratio"][worst]
        raise ParameterFileError(
            f"{sheet.name}: no unit meets all rated points together; the nearest misses the {name} "
            f"by {100.0 * off[worst]:.0f} %."
        )


def _fit(sheet: PublishedUnit, trial: _Trial, moved: Array) -> Fit:
    count = len(sheet.points)
    outputs = [float(value) for value in np.exp(trial.outputs)]
    return Fit(
        published=sheet,
        unit=trial.unit,
        capacities=tuple(outputs[:count]),
        efficiencies=tuple(outputs[count : 2 * count]),
        sensible_heat_ratio=outputs[-1],
        compressor_current=trial.current,
        moved=tuple(float(value) for value in moved),
    )
