"""Hermetic scroll compressor."""

from dataclasses import dataclass

import numpy as np

from simulator.quantities.values import Values

# Discharge temperature at which the motor's thermal protector opens: about 290 °F, common
# practice, no source [K].
OVERLOAD_TEMPERATURE = 416.5

SOUND_INSULATION = 200e6  # with oil and refrigerant in it; common practice, no source [ohm]
BENT = 0.13  # (k - 1) / k of R-410A's gas [-]
LEAST_RATIO = 1.02  # below it there is next to nothing to lift [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Compressor:
    """What a scroll compressor is.

    Parameters
    ----------
    displacement : float
        Swept volume flow at running speed. [m³/s]
    volumetric_efficiency : float
        Extrapolated to a pressure ratio of one. [-]
    volumetric_slope : float
        Loss of volumetric efficiency per unit of pressure ratio. [-]
    best_efficiency : float
        Overall isentropic efficiency, gas work over electrical power, at the pressure ratio
        the wraps are built for. [-]
    best_pressure_ratio : float
        Pressure ratio the wraps are built for. [-]
    efficiency_curvature : float
        Work added, over the ideal, with the square of the logarithm of the pressure ratio over
        the best one. [-]
    shell_conductance : float
        From shell and discharge pipe to the air outdoors. [W/K]
    leak_fraction : float
        Part of the swept flow that blows back from discharge to suction. [-]
    power_factor : float
        At rated load, with a good capacitor. [-]
    capacitor_share : float
        Capacitance of the run capacitor over that on its label. [-]
    is_open : float
        1 while its motor circuit is open. [-]
    winding_insulation : float
        Windings to shell, at 20 °C. [ohm]

    References
    ----------
    .. [1] ANSI/AHRI Standard 540, Performance Rating of Positive Displacement Refrigerant
       Compressors: the rating that such curves summarise.
    """

    displacement: Values
    volumetric_efficiency: Values
    volumetric_slope: Values
    best_efficiency: Values
    best_pressure_ratio: Values
    efficiency_curvature: Values
    shell_conductance: Values
    leak_fraction: Values
    power_factor: Values
    capacitor_share: Values
    is_open: Values
    winding_insulation: Values


def swept_mass_flow(
    compressor: Compressor, suction_density: Values, pressure_ratio: Values
) -> Values:
    """Mass the wraps take in, before any blow-back.

    Parameters
    ----------
    compressor : Compressor
        The machine.
    suction_density : float
        At the suction port. [kg/m³]
    pressure_ratio : float
        Discharge over suction, absolute. [-]

    Returns
    -------
    float
        [kg/s]
    """
    return _filling(compressor, pressure_ratio) * compressor.displacement * suction_density


def _filling(compressor: Compressor, pressure_ratio: Values) -> Values:
    """Volumetric efficiency."""
    lost = compressor.volumetric_slope * (pressure_ratio - 1.0)
    return np.maximum(compressor.volumetric_efficiency - lost, 0.05)


def overall_efficiency(compressor: Compressor, pressure_ratio: Values) -> Values:
    """Ideal gas work over electrical power.

    Gas that slips back between the wraps, or that the hot shell has thinned, is paid for as
    gas swept: efficiency falls with the volumetric one.

    Parameters
    ----------
    compressor : Compressor
        The machine.
    pressure_ratio : float
        Discharge over suction, absolute. [-]

    Returns
    -------
    float
        [-]
    """
    built_for = _filling(compressor, compressor.best_pressure_ratio)
    filled = _filling(compressor, pressure_ratio) / built_for
    added = stray_work(pressure_ratio, compressor.best_pressure_ratio)
    wraps = 1.0 + compressor.efficiency_curvature * added
    return compressor.best_efficiency * filled / wraps


def stray_work(pressure_ratio: Values, best_pressure_ratio: Values) -> Values:
    """How far from their own pressure ratio wraps of a fixed volume ratio work.

    They compress to one pressure and push out, or are blown back into, from there. Beyond
    their own ratio the work added is, over the ideal work, 0.35 to 0.39 of the square of the
    logarithm up to a pressure ratio of six, so that losses are written as a share of the work
    and efficiency never falls through zero. Below it gas is squeezed too far: the work is that
    of the whole squeeze less what the gas gives back, and stays where the ideal work goes to
    nothing.

    Parameters
    ----------
    pressure_ratio : float
        Discharge over suction, absolute. [-]
    best_pressure_ratio : float
        Pressure ratio the wraps are built for. [-]

    Returns
    -------
    float
        Square of the logarithm of the ratio over the best one; below that one, work added
        over the ideal, scaled to go on from there alike. [-]

    References
    ----------
    .. [1] Winandy, Saavedra, Lebrun, "Simplified modelling of an open-type reciprocating and
       of a scroll compressor", 2002: compression to the built-in ratio, then at constant
       volume (from memory).
    """
    low = np.clip(pressure_ratio, LEAST_RATIO, best_pressure_ratio)
    squeezed = best_pressure_ratio**BENT
    whole = (squeezed - 1.0) / BENT
    given_back = squeezed / best_pressure_ratio * (best_pressure_ratio - low)
    ideal = (low**BENT - 1.0) / BENT
    scale = whole / (0.5 * (1.0 - BENT) * squeezed)
    below = scale * ((whole - given_back) / ideal - 1.0)
    beyond = np.log(np.maximum(pressure_ratio / best_pressure_ratio, 1.0)) ** 2
    added: Values = below + beyond
    return added
