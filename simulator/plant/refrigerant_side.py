"""States across the saturation line, and how much refrigerant sits where."""

from typing import NamedTuple

import numpy as np

from simulator.components.refrigerant_lines import accumulated
from simulator.components.void_fraction import mean_two_phase_density
from simulator.plant.installation import Unit
from simulator.properties.refrigerant import Refrigerant, Saturation
from simulator.quantities.values import Values, held


class State(NamedTuple):
    """One refrigerant state: [J/kg], [K], [kg/m³], [J/(kg K)]."""

    enthalpy: Values
    temperature: Values
    density: Values
    entropy: Values


def latent(line: Saturation) -> Values:
    """Heat of evaporation.

    Parameters
    ----------
    line : Saturation
        At one pressure.

    Returns
    -------
    float
        [J/kg]
    """
    return line.vapour_enthalpy - line.liquid_enthalpy


def vapour_side(
    fluid: Refrigerant, log_pressure: Values, line: Saturation, enthalpy: Values
) -> State:
    """State of vapour, or of a mixture where the enthalpy falls short of the dew line.

    Parameters
    ----------
    fluid : Refrigerant
        The fluid.
    log_pressure : float
        Natural logarithm of absolute pressure over one pascal. [-]
    line : Saturation
        At that pressure.
    enthalpy : float
        [J/kg]

    Returns
    -------
    State
        Continuous across the dew line; the mixture's density is that of homogeneous flow,
        its entropy exact.
    """
    short = np.minimum(enthalpy - line.vapour_enthalpy, 0.0)
    vapour = fluid.vapour(log_pressure, line, np.maximum(enthalpy - line.vapour_enthalpy, 0.0))
    missing = np.minimum(-short / latent(line), 1.0)
    glide = line.dew_temperature - line.bubble_temperature
    volume = 1.0 / line.liquid_density - 1.0 / line.vapour_density
    return State(
        enthalpy,
        vapour.temperature - missing * glide,
        1.0 / (1.0 / vapour.density + missing * volume),
        vapour.entropy - missing * (line.vapour_entropy - line.liquid_entropy),
    )


def liquid_side(
    fluid: Refrigerant, log_pressure: Values, line: Saturation, enthalpy: Values
) -> State:
    """State of liquid, or of a mixture where the enthalpy exceeds the bubble line.

    Parameters
    ----------
    fluid : Refrigerant
        The fluid.
    log_pressure : float
        Natural logarithm of absolute pressure over one pascal. [-]
    line : Saturation
        At that pressure.
    enthalpy : float
        [J/kg]

    Returns
    -------
    State
        Continuous across the bubble line; entropy is that of the line or the mixture.
    """
    liquid = fluid.liquid(log_pressure, line, np.maximum(line.liquid_enthalpy - enthalpy, 0.0))
    quality = held((enthalpy - line.liquid_enthalpy) / latent(line), 0.0, 1.0)
    glide = line.dew_temperature - line.bubble_temperature
    volume = 1.0 / line.vapour_density - 1.0 / line.liquid_density
    return State(
        enthalpy,
        liquid.temperature + quality * glide,
        1.0 / (1.0 / liquid.density + quality * volume),
        line.liquid_entropy + quality * (line.vapour_entropy - line.liquid_entropy),
    )


def isentropic_lift(
    fluid: Refrigerant, log_pressure: Values, line: Saturation, suction: State, inlet: Saturation
) -> Values:
    """Ideal work from a suction state to a pressure.

    Drops have no time to boil between the wraps: the vapour is compressed as if dry, and the
    liquid carried along beside it; to push that takes under a hundredth of the work.

    Parameters
    ----------
    fluid : Refrigerant
        The fluid.
    log_pressure : float
        Of the outlet. [-]
    line : Saturation
        At the outlet pressure.
    suction : State
        At the inlet; may be wet.
    inlet : Saturation
        At the inlet pressure.

    Returns
    -------
    float
        For all that comes in, drops included. [J/kg]

    References
    ----------
    .. [1] Dutta, Yanagisawa and Fukuta, "An investigation of the performance of a scroll
       compressor under liquid refrigerant injection", International Journal of Refrigeration
       24(6), 2001, from memory: drops and vapour apart, or boiling at once, as two bounds.
    """
    short = np.maximum(inlet.vapour_enthalpy - suction.enthalpy, 0.0)
    drops = np.minimum(short / latent(inlet), 1.0)
    entropy = np.maximum(suction.entropy, inlet.vapour_entropy)
    above = entropy - line.vapour_entropy
    rise = fluid.vapour_enthalpy_above_dew(log_pressure, line, np.maximum(above, 0.0))
    # A wet end state lies on the isobar's straight part: dh = T ds.
    wet = np.minimum(above, 0.0) * line.dew_temperature
    vapour = line.vapour_enthalpy + rise + wet - suction.enthalpy - short
    return (1.0 - drops) * vapour


class Inventory(NamedTuple):
    """Where the refrigerant is: flow, qualities, zone shares and states."""

    flow: Values
    entering_quality: Values
    coil_outlet: State
    superheat_share: Values
    suction: State
    vapour_share: Values
    discharge_density: Values
    liquid: State
    liquid_share: Values
    suction_pressure: Values
    boiler_volume: Values
    condenser_volume: Values
    heating: bool


def charge(unit: Unit, low: Saturation, high: Saturation, where: Inventory) -> Values:
    """Refrigerant in the whole circuit.

    Parameters
    ----------
    unit : Unit
        Volumes.
    low, high : Saturation
        At evaporating and condensing pressure.
    where : Inventory
        Zone by zone.

    Returns
    -------
    float
        [kg]

    References
    ----------
    .. [1] Zivi 1964, see ``components.void_fraction``.
    """
    dry = np.maximum(where.superheat_share, 0.0)
    outlet_quality = 1.0 + np.minimum(where.superheat_share, 0.0)
    boiling = mean_two_phase_density(
        held(where.entering_quality, 0.0, 1.0),
        held(outlet_quality, 0.0, 1.0),
        low.liquid_density,
        low.vapour_density,
    )
    dry_density = 0.5 * (low.vapour_density + where.coil_outlet.density)
    boiler = where.boiler_volume * (boiling * (1.0 - dry) + dry_density * dry)

    full = np.maximum(where.liquid_share, 0.0)
    end_quality = np.maximum(-where.liquid_share, 0.0)
    condensing = mean_two_phase_density(
        1.0, np.minimum(end_quality, 1.0), high.liquid_density, high.vapour_density
    )
    hot_density = 0.5 * (high.vapour_density + where.discharge_density)
    # Slipping mixture at the outlet, the same law as inside the coil.
    end_density = mean_two_phase_density(
        end_quality, end_quality, high.liquid_density, high.vapour_density
    )
    liquid_density = np.where(full > 0.0, 0.5 * (high.liquid_density + where.liquid.density), 0.0)
    rest = 1.0 - where.vapour_share - full
    condenser = where.condenser_volume * (
        hot_density * where.vapour_share + condensing * rest + liquid_density * full
    )
    lines = unit.lines
    filled = np.where(full > 0.0, where.liquid.density, end_density)
    found: Values = (
        boiler
        + condenser
        + lines.liquid_volume * filled
        + lines.suction_volume
        * (where.discharge_density if where.heating else where.suction.density)
        + lines.shell_volume * where.suction.density
        + lines.discharge_volume * where.discharge_density
        + lines.oil_mass * lines.oil_solubility * where.suction_pressure
    )
    return found + _stored(unit, low, where, filled) if where.heating else found


def _stored(unit: Unit, low: Saturation, where: Inventory, filled: Values) -> Values:
    """What vessels hold while heating [kg].

    While cooling the accumulator is left out: the trade's rules for fixed orifices are those of
    units without one.
    """
    # Cold, the compensator fills with what the liquid line holds.
    spare = unit.lines.compensator_volume * filled
    carried = np.maximum(-where.superheat_share, 0.0) * where.flow
    return spare + accumulated(unit.lines, carried, low.liquid_density)
