"""True values of all measurements over a whole batch of plants."""

from dataclasses import replace

import numpy as np

from simulator.diagnosis.scatter import Around
from simulator.diagnosis.solutions import Solutions
from simulator.instruments import history_values
from simulator.instruments.duct_values import table_airflow
from simulator.instruments.measurements import MEASUREMENTS
from simulator.plant import stacking, steady
from simulator.quantities.values import Array

HISTORY = ("run_time", "starts")
BY_TABLE = "table_airflow"
# Parts as fitted whose values are worked out for a whole batch at once.
PARTS = (
    *("run_capacitor", "contactor_drop", "duct_leakage", "winding_insulation"),
    *("leg_1_voltage", "leg_2_voltage"),
)
STATICS = np.linspace(0.0, 800.0, 60)  # where a blower table is read [Pa]


def numbered() -> tuple[str, ...]:
    """Measurements that give a number.

    Returns
    -------
    tuple
    """
    return tuple(name for name, item in MEASUREMENTS.items() if item.has_number)


def sampled(name: str) -> bool:
    """Whether a measurement is worked out for single plants only.

    Parameters
    ----------
    name : str
        Of a measurement.

    Returns
    -------
    bool
    """
    item = MEASUREMENTS[name]
    if name in (*HISTORY, BY_TABLE):
        return False
    return item.fitted is not None or item.unfit is not None or not item.has_number


def true_values(
    solved: Solutions, around: Around, mode: str
) -> tuple[dict[str, int], Array, Array]:
    """All numbers, running and at rest.

    Parameters
    ----------
    solved : Solutions
        The batch.
    around : Around
        The nominal house, for its blower table and its mean day.
    mode : str
        What is called for.

    Returns
    -------
    tuple
        Column of each measurement; values running and at rest, shape (columns, measurements);
        those of measurements worked out for single plants are zero.
    """
    names = numbered()
    count = solved.owner.size
    table = _blower_table(around)
    day = _histories(solved, around, mode)
    found = []
    for point in (solved.running, solved.resting):
        values = np.zeros((count, len(names)))
        for place, name in enumerate(names):
            if name in HISTORY:
                values[:, place] = day[name]
            elif name == BY_TABLE:
                flow = np.interp(np.asarray(point.total_external_static), *table)
                values[:, place] = np.where(np.asarray(point.airflow) > 0.0, flow, 0.0)
            elif name in PARTS:
                fitted = MEASUREMENTS[name].fitted
                values[:, place] = fitted(solved.installation, point) if fitted else 0.0
            elif not sampled(name):
                truth = MEASUREMENTS[name].truth
                values[:, place] = truth(point) if truth is not None else 0.0
        found.append(values)
    return {name: place for place, name in enumerate(names)}, found[0], found[1]


def _blower_table(around: Around) -> tuple[Array, Array]:
    point = steady.solve(around.installation, around.conditions)
    flows = [
        table_airflow(around.installation, replace(point, total_external_static=float(static)))
        for static in STATICS
    ]
    return STATICS, np.array(flows)


def _histories(solved: Solutions, around: Around, mode: str) -> dict[str, Array]:
    """Run time and starts: delivered heat scaled from now to the mean day as the sound house's."""
    point = solved.running
    weather = tuple(
        np.asarray(getattr(point, name), dtype=float)
        for name in (
            "outdoor_temperature",
            "outdoor_humidity_ratio",
            "grille_temperature",
            "grille_humidity_ratio",
            "voltage",
            "pressure",
        )
    )
    day = history_values.day_like(mode, weather)
    sound = stacking.chosen(day, int(np.argmin(solved.owner)))
    now = steady.solve(around.installation, around.conditions)
    then = steady.solve(around.installation, replace(sound, mode=mode))
    scale = float(then.delivered_sensible) / float(now.delivered_sensible)
    delivered = np.asarray(point.delivered_sensible) * scale
    delivered = np.where(np.asarray(point.mode) == mode, delivered, -delivered)
    found = history_values.of_delivered(
        solved.installation, day, delivered, point.infiltration_airflow
    )
    return {
        "run_time": np.asarray(history_values.DAY * found.run_fraction),
        "starts": np.asarray(found.starts),
    }
