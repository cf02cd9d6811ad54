"""Where the search for a settled state begins, and between which bounds."""

import numpy as np

from simulator.plant import balance, newton
from simulator.plant.case import Case
from simulator.quantities.values import Array

TOLERANCE = 1e-7  # on the largest imbalance, of the unit's own size


def search_box(case: Case) -> newton.Box:
    """Bounds and steps of the seven unknowns.

    Parameters
    ----------
    case : Case
        Gives the refrigerant's table limits and the rated flow.

    Returns
    -------
    newton.Box
        Each of shape (7,).
    """
    fluid = case.fluid
    flow = float(np.log(np.mean(case.installation.unit.rated_flow)))
    low, high = np.log(fluid.lowest_pressure), np.log(fluid.highest_pressure)
    return newton.Box(
        low=np.array([low + 0.05, low + 0.5, -0.95, -0.98, flow - 4.0, 250.0, 0.0]),
        high=np.array([high, high, 0.97, 0.95, flow + 1.2, 360.0, 60.0]),
        step=np.array([0.25, 0.2, 0.3, 0.25, 0.4, 15.0, 8.0]),
        difference=np.array([1e-6, 1e-6, 1e-6, 1e-6, 1e-6, 1e-5, 1e-5]),
        has_two_sides=np.array([False, False, True, True, False, False, False]),
    )


def first_guess(case: Case, count: int) -> Array:
    """Where to begin: a healthy unit a fixed distance from air temperatures.

    Parameters
    ----------
    case : Case
        Weather and rooms.
    count : int
        Size of the batch.

    Returns
    -------
    array
        Shape (7, count). [-]
    """
    conditions, unit, fluid = case.conditions, case.installation.unit, case.fluid
    inside, outside = (
        np.asarray(conditions.indoor_temperature),
        np.asarray(conditions.outdoor_temperature),
    )
    full = np.asarray(unit.charge) / unit.plate_charge
    flow = np.asarray(unit.rated_flow) * (1.0 - 0.5 * np.asarray(unit.compressor.leak_fraction))
    if conditions.mode == "heating":
        low = fluid.dew_pressure(outside - 5.5)
        # The condenser sheds what the cold evaporator can bring: less lift in the cold,
        # and less still where an orifice floods the coil.
        colder, valve = outside - 281.5, np.asarray(unit.heating_metering.is_thermostatic)
        condensing = inside + np.clip(20.0 + (0.55 - 0.3 * valve) * colder, 8.0, 26.0)
        dry = valve * 0.09 + (1.0 - valve) * np.clip(0.08 + 0.02 * colder, -0.35, 0.3)
        flow = flow * np.clip(1.0 + 0.022 * (outside - 290.0), 0.25, 1.3)
    else:
        low = fluid.dew_pressure(inside - 18.4)
        dry = np.asarray(0.145)
        condensing = outside + 10.2 / (1.0 - 0.8 * np.asarray(unit.outdoor_coil.blocked_fraction))
    high = np.minimum(fluid.bubble_pressure(condensing), fluid.highest_pressure * 0.9)
    rows = [
        np.log(low),
        np.log(high),
        dry + 1.2 * np.clip(0.85 - full, 0.0, 0.3),
        np.clip(0.115 + 0.7 * (full - 1.0), -0.2, 0.4),
        np.log(flow) - 0.35 * np.clip(1.0 - full, 0.0, 0.4),
        conditions.indoor_temperature,
        np.asarray(conditions.indoor_humidity_ratio) * balance.GRAM,
    ]
    return np.array([np.broadcast_to(row, count) for row in rows], dtype=float)
