"""A compressor stated as ten coefficients, and the efficiencies that say the same."""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from simulator.quantities.values import Array, Values

POUND_PER_HOUR = 0.45359237 / 3600.0  # [kg/s]


@dataclass(frozen=True, slots=True, kw_only=True)
class CompressorMap:
    """Ten coefficients of flow and of power, as compressor makers publish them.

    Parameters
    ----------
    mass_flow : tuple
        Of lb/h over dew points in °F. [-]
    power : tuple
        Of W over dew points in °F. [-]
    superheat : float
        Of the suction gas all along. [delta K]

    References
    ----------
    .. [1] ANSI/AHRI Standard 540: X = C1 + C2 S + C3 D + C4 S² + C5 D S + C6 D² + C7 S³
       + C8 D S² + C9 S D² + C10 D³, suction and discharge dew points in °F.
    """

    mass_flow: tuple[float, ...]
    power: tuple[float, ...]
    superheat: float


class Efficiencies(NamedTuple):
    """Swept flow [m³/s], efficiencies [-], and how far they stray from the map [-]."""

    displacement: float
    volumetric_slope: float
    best_efficiency: float
    best_pressure_ratio: float
    efficiency_curvature: float
    flow_stray: float
    power_stray: float


def polynomial(coefficients: tuple[float, ...], suction: Values, discharge: Values) -> Values:
    """The ten-coefficient polynomial.

    Parameters
    ----------
    coefficients : tuple
        Ten. [-]
    suction, discharge : float
        Dew points in °F. [-]

    Returns
    -------
    float
        In the unit of the coefficients. [-]
    """
    return sum(
        factor * term for factor, term in zip(coefficients, terms(suction, discharge), strict=True)
    )


def terms(suction: Values, discharge: Values) -> tuple[Values, ...]:
    """The ten terms, in the standard's order.

    Parameters
    ----------
    suction, discharge : float
        Dew points in °F. [-]

    Returns
    -------
    tuple
        [-]
    """
    s, d = suction, discharge
    return 1.0 + 0.0 * s, s, d, s**2, d * s, d**2, s**3, d * s**2, s * d**2, d**3


def efficiencies(
    flow: Array, power: Array, density: Array, lift: Array, pressure_ratio: Array, unloaded: float
) -> Efficiencies | None:
    """Efficiencies that say over an envelope what a map says there.

    The map's cubics run wild outside the envelope, where a fault may well take the machine;
    efficiencies over pressure ratio do not, so the plant runs on these.

    Parameters
    ----------
    flow : array
        By the map. [kg/s]
    power : array
        By the map. [W]
    density : array
        Of the suction gas. [kg/m³]
    lift : array
        Ideal work. [J/kg]
    pressure_ratio : array
        [-]
    unloaded : float
        Volumetric efficiency at a pressure ratio of one. [-]

    Returns
    -------
    Efficiencies, optional
        None where efficiency has no best pressure ratio, or flow no displacement.
    """
    columns = np.stack([density, -density * (pressure_ratio - 1.0)], axis=1) / flow[:, None]
    swept, lost = np.linalg.lstsq(columns, np.ones_like(flow), rcond=None)[0]
    # Power over ideal work on all that is swept: least where the wraps are at their best.
    filled = unloaded * (1.0 - lost / swept * (pressure_ratio - 1.0))
    shape = np.polyfit(np.log(pressure_ratio), filled * power / (flow * lift), 2)
    if swept <= 0.0 or shape[0] <= 0.0:
        return None
    at = -shape[1] / (2.0 * shape[0])
    least = shape[2] + 0.5 * shape[1] * at
    if least <= 0.0:
        return None
    said = density * (swept - lost * (pressure_ratio - 1.0))
    worked = np.polyval(shape, np.log(pressure_ratio)) / filled
    displacement = swept / unloaded
    return Efficiencies(
        displacement=float(displacement),
        volumetric_slope=float(lost / displacement),
        best_efficiency=float(unloaded * (1.0 - lost / swept * (np.exp(at) - 1.0)) / least),
        best_pressure_ratio=float(np.exp(at)),
        efficiency_curvature=float(shape[0] / least),
        flow_stray=float(np.max(np.abs(said / flow - 1.0))),
        power_stray=float(np.max(np.abs(flow * lift * worked / power - 1.0))),
    )
