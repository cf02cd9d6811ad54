"""Rated points: their conditions, and the unit held at them by superheat and subcooling."""

import numpy as np

from simulator.plant import newton, stacking, steady
from simulator.plant.balance import sizing_residuals
from simulator.plant.case import Settled, chosen_case, prepared
from simulator.plant.conditions import Conditions
from simulator.plant.data_sheet import RatedPoint
from simulator.plant.installation import Installation
from simulator.plant.report import operating_point
from simulator.properties import moist_air
from simulator.quantities.shown import from_display
from simulator.quantities.values import Array, Index

PRESSURE = 101325.0


def kelvin(fahrenheit: float) -> float:
    """A temperature.

    Parameters
    ----------
    fahrenheit : float
        In °F. [-]

    Returns
    -------
    float
        [K]
    """
    return float(from_display(fahrenheit, "temperature"))


def around(point: RatedPoint) -> Conditions:
    """Test conditions of AHRI 210/240: indoors 80/67 °F while cooling, 70/60 while heating.

    Parameters
    ----------
    point : RatedPoint
        Tells mode and outdoor air.

    Returns
    -------
    Conditions
        Without sun.
    """
    dry, wet = (80.0, 67.0) if point.mode == "cooling" else (70.0, 60.0)
    indoors = (kelvin(dry), kelvin(wet), PRESSURE)
    outdoors = (point.outdoor, point.outdoor_wet_bulb, PRESSURE)
    return Conditions(
        outdoor_temperature=point.outdoor,
        outdoor_humidity_ratio=float(moist_air.humidity_ratio_from_wet_bulb(*outdoors)),
        indoor_temperature=indoors[0],
        indoor_humidity_ratio=float(moist_air.humidity_ratio_from_wet_bulb(*indoors)),
        solar=0.0,
        mode=point.mode,
    )


def held(
    trials: list[Installation], points: list[RatedPoint], hold: tuple[float, float]
) -> tuple[Array, Array, Array]:
    """Settle installations of one unit with superheat and subcooling held.

    Parameters
    ----------
    trials : list
        With rating ducts.
    points : list
        Of one mode.
    hold : tuple
        Superheat and subcooling. [delta K]

    Returns
    -------
    tuple
        Logarithms of capacity, efficiency and sensible share, each of shape (points, trials),
        net of the blower. [-]
    """
    pairs = [(trial, around(point)) for point in points for trial in trials]
    case = prepared(
        stacking.stacked([trial for trial, _ in pairs]), stacking.stacked([c for _, c in pairs])
    )

    def residual(unknowns: Array, columns: Index) -> Array:
        return sizing_residuals(unknowns, chosen_case(case, columns), *hold)

    box, start = steady.search_box(case), steady.first_guess(case, len(pairs))
    outcome = newton.solve(residual, start, box, tolerance=1e-9)
    none = np.zeros(len(pairs), dtype=bool)
    solved = Settled(outcome.unknowns, ~none, outcome.error, none, none)
    point = operating_point(case, solved)
    sign = 1.0 if points[0].mode == "cooling" else -1.0
    size = np.asarray(point.gross_capacity - sign * point.blower_power)
    ratio = size / (point.outdoor_power + point.blower_power)
    share = (point.sensible_capacity - point.blower_power) / size
    shape = (len(points), len(trials))
    size, ratio, share = (
        np.log(np.maximum(part, 1e-6)).reshape(shape) for part in (size, ratio, share)
    )
    return size, ratio, share
