"""The coil that boils: outlet state, heat taken, and how much of it is sensible."""

from typing import NamedTuple

import numpy as np

from simulator.components import indoor_coil, outdoor_coil
from simulator.plant import refrigerant_side as side
from simulator.plant.coil_duty import Duty, Stream
from simulator.plant.refrigerant_side import State
from simulator.quantities.values import Values


class Evaporated(NamedTuple):
    """Outlet state, enthalpy where boiling ends [J/kg], heats [W], superheat [delta K].

    The film is by how much metal is warmer than what boils in it. [delta K]
    """

    outlet: State
    boiling_end: Values
    boiling: Values
    sensible: Values
    superheat: Values
    film: Values


def evaporated(stream: Stream, duty: Duty) -> Evaporated:
    """Boiling part wet or dry, superheating part dry.

    Parameters
    ----------
    stream : Stream
        The refrigerant; its share superheats, or falls short of dry vapour.
    duty : Duty
        The coil and its air.

    Returns
    -------
    Evaporated
    """
    low, flow = stream.line, stream.flow
    air, air_side = duty.air, duty.air_conductance
    inner = duty.two_phase * stream.flow_ratio**0.35
    dry_part = np.maximum(stream.share, 0.0)
    whole = indoor_coil.boiling_heat(air, low.dew_temperature, air_side, inner)
    boiling = whole * (1.0 - dry_part)
    capacity = air.mass_flow * air.heat_capacity
    vapour = outdoor_coil.in_series(air_side, duty.vapour * stream.flow_ratio**0.8)
    reach = outdoor_coil.slice_effectiveness(vapour, capacity) * capacity
    vapour_rate = flow * low.vapour_heat_capacity
    warming = -np.expm1(-reach * dry_part / vapour_rate)
    gap = air.temperature - low.dew_temperature
    # Vapour's heat capacity falls as it warms: the mean up to the air, so that gas never
    # leaves warmer than the air came.
    reached = stream.fluid.vapour(
        stream.log_pressure, low, low.vapour_heat_capacity * np.maximum(gap, 0.01)
    )
    mean = np.maximum(gap, 0.01) / (reached.temperature - low.dew_temperature)
    superheating = low.vapour_heat_capacity * mean * warming * gap
    end = low.vapour_enthalpy + np.minimum(stream.share, 0.0) * side.latent(low)
    outlet = side.vapour_side(stream.fluid, stream.log_pressure, low, end + superheating)
    sensible = indoor_coil.sensible_heat(air, boiling, 1.0 - dry_part, air_side)
    sensible = sensible + flow * superheating
    superheat = outlet.temperature - low.dew_temperature
    return Evaporated(outlet, end, boiling, sensible, superheat, whole / inner)
