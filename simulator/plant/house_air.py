"""What reaches the rooms, and what the ducts do to the pressure of the house."""

from typing import NamedTuple

import numpy as np

from simulator.plant.case import Case
from simulator.plant.zone_balance import ZoneAir
from simulator.properties import moist_air
from simulator.quantities.values import Values

FLOW_EXPONENT = 0.65  # of cracks; ASHRAE Handbook, Fundamentals, Ventilation and Infiltration


class Rooms(NamedTuple):
    """Heats [W], pressure against outdoors [Pa], outdoor air entering [m³/s]."""

    total: Values
    sensible: Values
    pressure: Values
    infiltration: Values


def delivered(case: Case, plenum: ZoneAir, registers: tuple[Values, ...]) -> Rooms:
    """Cooling or heating that reaches the rooms, and the blower's pull on the house.

    A supply leak outside the envelope takes air from the house; a return leak brings air
    in. What one exceeds the other by enters or leaves through cracks.

    Parameters
    ----------
    case : Case
        Flows, rooms, leaks.
    plenum : ZoneAir
        Supply air as it sets out.
    registers : tuple
        Temperature at each register. [K]

    Returns
    -------
    Rooms
        Positive in the direction of the mode.

    References
    ----------
    .. [1] Palmiter, L. and Bond, T., "Interaction of mechanical systems and natural
       infiltration", AIVC Conference, 1991: half of a small unbalanced flow adds to
       natural infiltration, a large one replaces it.
    """
    conditions, path, house = case.conditions, case.path, case.installation.house
    through = path.mass_flow * path.register_share
    room_enthalpy = moist_air.enthalpy(
        conditions.indoor_temperature, conditions.indoor_humidity_ratio
    )
    heat_capacity = moist_air.heat_capacity(plenum.humidity_ratio)
    total: Values = 0.0
    sensible: Values = 0.0
    for share, temperature in zip(path.room_shares, registers, strict=True):
        flow = through * share
        enthalpy = moist_air.enthalpy(temperature, plenum.humidity_ratio)
        total = total + flow * (room_enthalpy - enthalpy)
        cooled = conditions.indoor_temperature - temperature
        sensible = sensible + flow * heat_capacity * cooled
    sign = -1.0 if conditions.mode == "heating" else 1.0
    lost = path.airflow * (path.supply_leak - path.return_share)
    pressure = -np.sign(lost) * (np.abs(lost) / house.leakage_coefficient) ** (1 / FLOW_EXPONENT)
    natural = house.natural_infiltration
    # Only air drawn in loads the rooms; a pressurised house keeps natural air out.
    drawn = np.maximum(natural + 0.5 * lost, np.maximum(lost, 0.0))
    return Rooms(sign * total, sign * sensible, pressure, drawn)
