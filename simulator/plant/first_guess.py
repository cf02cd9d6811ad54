"""Where the search for a settled state begins, and between which bounds."""

import numpy as np

from simulator.plant import balance, newton
from simulator.plant.case import Case
from simulator.quantities.values import Array, Values, held

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
        low=np.array([low + 0.05, low + 0.5, -0.95, -0.995, flow - 4.0, 250.0, 0.0]),
        high=np.array([high, high, 0.995, 0.95, flow + 1.2, 360.0, 60.0]),
        step=np.array([0.25, 0.2, 0.3, 0.25, 0.4, 15.0, 8.0]),
        difference=np.array([1e-6, 1e-6, 1e-6, 1e-6, 1e-6, 1e-5, 1e-5]),
        has_two_sides=np.array([False, False, True, True, False, False, False]),
    )


# How far a running unit is from the plain guess while cooling: the two logarithms of
# pressure, both shares and the logarithm of flow (rows), by what ``_cooling_features``
# tells (columns). Fitted to settled states of the six units shipped, over weather, charge,
# airflow and dirt; a guess only, no result depends on it.
_VALVE = np.array(
    [
        [-0.006, 0.0044, -0.0203, 0.0188, 0.156, -0.158, 0.384, -0.018, 0.042],
        [-0.017, -0.0005, 0.0018, 0.0035, 0.035, 0.222, -0.066, 0.353, -0.021],
        [0.077, -0.0005, -0.0002, 0.0100, 0.031, 0.056, -1.167, -0.042, -0.002],
        [-0.007, 0.0003, -0.0024, -0.0044, -0.049, 0.167, -0.335, 0.233, -0.006],
        [-0.070, 0.0013, 0.0110, 0.0207, 0.173, -0.565, 0.699, -0.066, 0.005],
    ]
)
_ORIFICE = np.array(
    [
        [-0.022, 0.0065, -0.0232, 0.0110, 0.093, 0.021, 0.762, 0.031, 0.082],
        [-0.020, -0.0004, 0.0010, 0.0037, 0.033, 0.232, 0.067, 0.303, -0.017],
        [0.090, -0.0066, 0.0106, 0.0281, 0.205, -0.650, -1.186, -0.347, -0.103],
        [-0.008, -0.0020, 0.0014, 0.0032, 0.011, -0.080, -0.271, 0.083, -0.050],
        [-0.062, 0.0071, 0.0014, 0.0031, 0.023, 0.011, 0.889, 0.218, 0.094],
    ]
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
    conditions, unit = case.conditions, case.installation.unit
    full = np.asarray(unit.charge) / unit.plate_charge
    liquid = held(0.115 + 0.7 * (full - 1.0), -0.2, 0.4)
    flow = np.asarray(unit.rated_flow) * (1.0 - 0.5 * np.asarray(unit.compressor.leak_fraction))
    flow = np.log(flow) - 0.35 * held(1.0 - full, 0.0, 0.4)
    plain = _heating_guess if conditions.mode == "heating" else _cooling_guess
    rows = [
        *plain(case, full, liquid, flow),
        conditions.indoor_temperature,
        np.asarray(conditions.indoor_humidity_ratio) * balance.GRAM,
    ]
    found = np.empty((len(rows), count))
    for place, row in enumerate(rows):
        found[place] = row
    return found


def _heating_guess(case: Case, full: Array, liquid: Array, flow: Array) -> tuple[Values, ...]:
    """The circuit's five unknowns while heating."""
    unit, fluid = case.installation.unit, case.fluid
    outside = np.asarray(case.conditions.outdoor_temperature)
    # The condenser sheds what the cold evaporator can bring: less lift in the cold,
    # and less still where an orifice floods the coil.
    colder, valve = outside - 281.5, np.asarray(unit.heating_metering.is_thermostatic)
    condensing = case.conditions.indoor_temperature + held(
        20.0 + (0.55 - 0.3 * valve) * colder, 8.0, 26.0
    )
    dry = valve * 0.09 + (1.0 - valve) * held(0.08 + 0.02 * colder, -0.35, 0.3)
    high = np.minimum(fluid.bubble_pressure(condensing), fluid.highest_pressure * 0.9)
    return (
        np.log(fluid.dew_pressure(outside - 5.5)),
        np.log(high),
        dry + 1.2 * held(0.85 - full, 0.0, 0.3),
        liquid,
        flow + np.log(held(1.0 + 0.022 * (outside - 290.0), 0.25, 1.3)),
    )


def _cooling_guess(case: Case, full: Array, liquid: Array, flow: Array) -> tuple[Values, ...]:
    """The circuit's five unknowns while cooling."""
    unit, conditions, fluid = case.installation.unit, case.conditions, case.fluid
    blocked = np.asarray(unit.outdoor_coil.blocked_fraction)
    condensing = conditions.outdoor_temperature + 10.2 / (1.0 - 0.8 * blocked)
    high = np.minimum(fluid.bubble_pressure(condensing), fluid.highest_pressure * 0.9)
    low = fluid.dew_pressure(np.asarray(conditions.indoor_temperature) - 18.4)
    valve = unit.metering.is_thermostatic
    features = _cooling_features(case, full, blocked)
    more = [
        sum((v * valve + o * (1.0 - valve)) * feature for v, o, feature in row)
        for row in (
            zip(*rows, features, strict=True) for rows in zip(_VALVE, _ORIFICE, strict=True)
        )
    ]
    return np.log(low) + more[0], np.log(high) + more[1], more[2], liquid + more[3], flow + more[4]


def _cooling_features(case: Case, full: Array, blocked: Array) -> tuple[Values, ...]:
    """What the guess leans on, held to where it was fitted.

    One; outdoors and rooms [delta K]; humidity [g/kg]; logarithm of airflow; charge short
    of full, short of starving, above full; dirt.
    """
    conditions = case.conditions
    airflow = np.asarray(case.path.airflow) / case.installation.unit.rated_airflow
    return (
        1.0,
        held(np.asarray(conditions.outdoor_temperature) - 302.0, -16.0, 17.0),
        held(np.asarray(conditions.indoor_temperature) - 297.0, -6.0, 7.0),
        held(np.asarray(conditions.indoor_humidity_ratio) * balance.GRAM - 10.0, -6.0, 8.0),
        np.log(held(airflow, 0.4, 1.3)),
        held(full - 1.0, -0.35, 0.0),
        held(full - 0.85, -0.2, 0.0),
        held(full - 1.0, 0.0, 0.25),
        held(blocked, 0.0, 0.5),
    )
