"""The coil that boils: outlet state, heat taken, and how much of it is sensible."""

from typing import NamedTuple

import numpy as np

from simulator.components import indoor_coil, outdoor_coil
from simulator.plant import refrigerant_side as side
from simulator.plant.coil_duty import Duty
from simulator.plant.refrigerant_side import State
from simulator.properties.refrigerant import Refrigerant, Saturation
from simulator.quantities.values import Values


class Evaporated(NamedTuple):
    """Outlet state, enthalpy where boiling ends [J/kg], heats [W], superheat [delta K]."""

    outlet: State
    boiling_end: Values
    boiling: Values
    sensible: Values
    superheat: Values


def evaporated(
    fluid: Refrigerant,
    log_low: Values,
    low: Saturation,
    superheat_share: Values,
    flow: Values,
    flow_ratio: Values,
    duty: Duty,
) -> Evaporated:
    """Boiling part wet or dry, superheating part dry.

    Parameters
    ----------
    fluid : Refrigerant
        In the circuit.
    log_low : float
        Logarithm of the evaporating pressure. [-]
    low : Saturation
        At that pressure.
    superheat_share : float
        Part of the coil that superheats; below zero, how far the outlet quality falls
        short of one. [-]
    flow : float
        [kg/s]
    flow_ratio : float
        Over rated. [-]
    duty : Duty
        The coil and its air.

    Returns
    -------
    Evaporated
    """
    air, air_side = duty.air, duty.air_conductance
    inner = duty.two_phase * flow_ratio**0.35
    dry_part = np.maximum(superheat_share, 0.0)
    whole = indoor_coil.boiling_heat(air, low.dew_temperature, air_side, inner)
    boiling = whole * (1.0 - dry_part)
    capacity = air.mass_flow * air.heat_capacity
    vapour = outdoor_coil.in_series(air_side, duty.vapour * flow_ratio**0.8)
    reach = outdoor_coil.slice_effectiveness(vapour, capacity) * capacity
    vapour_rate = flow * low.vapour_heat_capacity
    warming = -np.expm1(-reach * dry_part / vapour_rate)
    superheating = low.vapour_heat_capacity * warming * (air.temperature - low.dew_temperature)
    end = low.vapour_enthalpy + np.minimum(superheat_share, 0.0) * side.latent(low)
    outlet = side.vapour_side(fluid, log_low, low, end + superheating)
    sensible = indoor_coil.sensible_heat(air, boiling, 1.0 - dry_part, air_side)
    sensible = sensible + flow * superheating
    return Evaporated(outlet, end, boiling, sensible, outlet.temperature - low.dew_temperature)
