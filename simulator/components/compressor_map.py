"""A compressor stated as ten coefficients, and the efficiencies that say the same."""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from simulator.components.compressor import stray_work
from simulator.quantities.values import Array, Values

POUND_PER_HOUR = 0.45359237 / 3600.0  # [kg/s]
RATIOS = (1.2, 8.0)  # between which wraps may be at their best [-]
TRIED, ROUNDS = 41, 7  # each round looks twenty times as closely


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
    shape = _shape(pressure_ratio, filled * power / (flow * lift))
    if swept <= 0.0 or shape is None:
        return None
    at, least, bent = shape
    said = density * (swept - lost * (pressure_ratio - 1.0))
    worked = (least + bent * stray_work(pressure_ratio, at)) / filled
    displacement = swept / unloaded
    return Efficiencies(
        displacement=float(displacement),
        volumetric_slope=float(lost / displacement),
        best_efficiency=float(unloaded * (1.0 - lost / swept * (at - 1.0)) / least),
        best_pressure_ratio=at,
        efficiency_curvature=bent / least,
        flow_stray=float(np.max(np.abs(said / flow - 1.0))),
        power_stray=float(np.max(np.abs(flow * lift * worked / power - 1.0))),
    )


def _shape(pressure_ratio: Array, asked: Array) -> tuple[float, float, float] | None:
    """Best pressure ratio, least power over ideal work, and how it bends away [-]."""
    low, high = RATIOS
    for _ in range(ROUNDS):
        tried = np.linspace(low, high, TRIED)
        found = [_bend(pressure_ratio, asked, at) for at in tried]
        best = int(np.argmin([missed for missed, _, _ in found]))
        low, high = tried[max(best - 1, 0)], tried[min(best + 1, TRIED - 1)]
    _, least, bent = found[best]
    inside = RATIOS[0] < low and high < RATIOS[1]
    return (float(tried[best]), least, bent) if inside and least > 0.0 and bent > 0.0 else None


def _bend(pressure_ratio: Array, asked: Array, at: float) -> tuple[float, float, float]:
    """Sum of squares missed, with the least and the bend that miss least [-]."""
    columns = np.stack([np.ones_like(asked), stray_work(pressure_ratio, at)], axis=1)
    (least, bent), *_ = np.linalg.lstsq(columns, asked, rcond=None)
    return float(np.sum((columns @ (least, bent) - asked) ** 2)), float(least), float(bent)
