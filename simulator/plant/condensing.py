"""The coil that condenses: desuperheating, condensing and subcooling parts."""

from typing import NamedTuple

import numpy as np

from simulator.components import outdoor_coil
from simulator.plant import refrigerant_side as side
from simulator.plant.coil_duty import Duty, Stream
from simulator.plant.refrigerant_side import State
from simulator.quantities.values import Values


class Condensed(NamedTuple):
    """Outlet state, share that desuperheats [-], heat the coil can and must give."""

    liquid: State
    vapour_share: Values
    available: Values  # [W]
    needed: Values  # [J/kg]


def condensed(
    stream: Stream, hot: tuple[Values, Values], film_factor: Values, duty: Duty
) -> Condensed:
    """Three parts in a row, every slice of the coil meeting fresh air.

    Parameters
    ----------
    stream : Stream
        The refrigerant; its share is full of liquid, or minus the outlet quality.
    hot : tuple
        Enthalpy [J/kg] and temperature [K] of the gas coming in.
    film_factor : float
        What air in the refrigerant leaves of the condensing conductance. [-]
    duty : Duty
        The coil and its air.

    Returns
    -------
    Condensed
    """
    high, flow, fluid = stream.line, stream.flow, stream.fluid
    hot_enthalpy, hot_temperature = hot
    air = duty.air
    capacity = air.mass_flow * air.heat_capacity

    def reach(inner: Values) -> Values:
        whole = outdoor_coil.in_series(duty.air_conductance, inner)
        return outdoor_coil.slice_effectiveness(whole, capacity) * capacity

    single = stream.flow_ratio**0.8
    gap = high.dew_temperature - air.temperature
    # Never less than nothing, joined smoothly: guesses may cross the air.
    gap = 0.5 * (gap + np.sqrt(gap * gap + 0.25))
    # A blend grows colder as it condenses and stops where its bubble point meets the air:
    # the geometric mean of both ends, near enough the logarithmic one.
    colder = high.bubble_temperature - air.temperature
    colder = 0.5 * (colder + np.sqrt(colder * colder + 0.25))
    along = np.sqrt(gap * colder)
    hot_gap = np.maximum(hot_temperature - high.dew_temperature, 0.0)
    spare = np.maximum(hot_enthalpy - high.vapour_enthalpy, 0.0)
    # With a mean heat capacity of spare over gap; written so that nothing jumps where the
    # gas arrives just saturated.
    ratio = hot_gap / gap
    bent = np.where(ratio > 1e-6, np.log1p(ratio) / np.maximum(ratio, 1e-6), 1.0)
    vapour_share = flow * spare * bent / gap / reach(duty.vapour * single)
    full = np.maximum(stream.share, 0.0)
    end = high.liquid_enthalpy - np.minimum(stream.share, 0.0) * side.latent(high)
    # Mean liquid heat capacity down to the air, from the saturation line.
    # A hair below the bubble point where the air is no colder: liquid never passes the air.
    coldest = np.minimum(air.temperature, high.bubble_temperature - 0.02)
    cooled = fluid.saturation(np.log(fluid.bubble_pressure(coldest)))
    liquid_gap = np.maximum(high.bubble_temperature - cooled.bubble_temperature, 0.01)
    liquid_cp = (high.liquid_enthalpy - cooled.liquid_enthalpy) / liquid_gap
    cooling = -np.expm1(-reach(duty.liquid * single) * full / (flow * liquid_cp))
    leaving = end - liquid_cp * liquid_gap * cooling
    liquid = side.liquid_side(fluid, stream.log_pressure, high, leaving)
    film = duty.two_phase * stream.flow_ratio**0.3 * film_factor
    two_phase = 1.0 - vapour_share - full
    start = np.minimum(hot_enthalpy, high.vapour_enthalpy)
    return Condensed(liquid, vapour_share, two_phase * reach(film) * along, start - end)
