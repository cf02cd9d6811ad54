"""Metering devices: thermostatic valve and fixed orifice."""

from dataclasses import dataclass

import numpy as np

from simulator.quantities.values import Values


@dataclass(frozen=True, slots=True, kw_only=True)
class MeteringDevice:
    """What sits before the evaporating coil.

    Parameters
    ----------
    is_thermostatic : float
        1 for a thermostatic valve, 0 for a fixed orifice. [-]
    open_area : float
        Flow area of the orifice, or of the valve wide open. [m²]
    spring_superheat : float
        Superheat at which the valve begins to open. [delta K]
    stroke_superheat : float
        Further superheat that opens it fully. [delta K]
    rated_superheat : float
        At the coil outlet, where the device was sized. [delta K]
    least_opening : float
        Bleed of the closed valve. [-]
    bulb_offset : float
        Bulb warmer than the pipe by this much. [delta K]
    bypass_area : float
        Open beside the needle or past the check valve. [m²]
    flash_weight : float
        Share of the flash pressure that chokes the flow. [-]
    flash_resistance : float
        How strongly vapour at the inlet cuts the flow. [-]
    """

    is_thermostatic: Values
    open_area: Values
    spring_superheat: Values
    stroke_superheat: Values
    rated_superheat: Values
    least_opening: Values
    bulb_offset: Values
    bypass_area: Values
    flash_weight: Values
    flash_resistance: Values


def opening(device: MeteringDevice, bulb_superheat: Values) -> Values:
    """How far the device stands open.

    The bulb holds the circuit's own refrigerant, so bulb pressure less
    evaporating pressure is, near one point, a superheat; the spring sets where
    the needle leaves its seat. A smooth ramp between two stops.

    Parameters
    ----------
    device : MeteringDevice
        The device.
    bulb_superheat : float
        Bulb temperature less evaporating temperature. [delta K]

    Returns
    -------
    float
        1 for an orifice. [-]

    References
    ----------
    .. [1] ASHRAE Handbook, Refrigeration, Refrigerant-Control Devices: thermostatic
       expansion valve, static and opening superheat.
    """
    stroke = (
        bulb_superheat + device.bulb_offset - device.spring_superheat
    ) / device.stroke_superheat
    # Softened at both stops, so that a solver's derivative never vanishes abruptly.
    sharpness = 16.0
    ramp = np.logaddexp(0.0, sharpness * stroke) - np.logaddexp(0.0, sharpness * (stroke - 1.0))
    ramp = ramp / sharpness
    valve = device.least_opening + (1.0 - device.least_opening) * ramp
    return device.is_thermostatic * valve + (1.0 - device.is_thermostatic)


def metered_flow(
    device: MeteringDevice,
    bulb_superheat: Values,
    upstream_pressure: Values,
    flash_pressure: Values,
    liquid_density: Values,
    vapour_density: Values,
    inlet_quality: Values,
) -> Values:
    """Refrigerant the device lets through.

    Parameters
    ----------
    device : MeteringDevice
        The device.
    bulb_superheat : float
        At the bulb; the orifice does not look at it. [delta K]
    upstream_pressure : float
        At the inlet. [Pa]
    flash_pressure : float
        Bubble pressure at the inlet temperature, at most the upstream pressure. [Pa]
    liquid_density, vapour_density : float
        Saturated, at the inlet. [kg/m³]
    inlet_quality : float
        Vapour share by mass at the inlet, 0 for liquid. [-]

    Returns
    -------
    float
        [kg/s]

    References
    ----------
    .. [1] Kim, Y. and O'Neal, D. L., "Two-phase flow of R-22 through short-tube orifices",
       ASHRAE Transactions 100(1), 1994: choked flow driven by upstream pressure less a part
       of the flash pressure, cut by inlet quality.
    """
    area = device.open_area * opening(device, bulb_superheat) + device.bypass_area
    driving = upstream_pressure - device.flash_weight * flash_pressure
    flash = 1.0 + device.flash_resistance * inlet_quality * (liquid_density / vapour_density - 1.0)
    return area * np.sqrt(2.0 * liquid_density * np.maximum(driving, 1.0) / flash)
