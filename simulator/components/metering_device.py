"""Metering devices: thermostatic valve and fixed orifice."""

from dataclasses import dataclass

import numpy as np

from simulator.quantities.values import Values, held

# Where vapour at the inlet leaves no liquid to choke: this part of the upstream pressure.
LEAST_CHOKED = 0.9
SHUT = 1e-4  # part of the driving pressure left against a higher one; keeps logarithms finite


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
    clear_share : float
        Part of the flow area that no dirt plugs and no lost bulb charge keeps shut. [-]
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
    clear_share: Values


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


def driving_pressure(
    device: MeteringDevice, upstream: Values, flash: Values, downstream: Values
) -> Values:
    """Pressure that drives refrigerant through the device.

    Choked, it does not look downstream. Liquid that would not boil at the pressure behind the
    device is not choked: its flow falls with what is left of the difference, to nothing where
    none is.

    Parameters
    ----------
    device : MeteringDevice
        The device.
    upstream : float
        At the inlet. [Pa]
    flash : float
        Bubble pressure at the inlet temperature, at most the upstream pressure. [Pa]
    downstream : float
        At the outlet. [Pa]

    Returns
    -------
    float
        [Pa]

    References
    ----------
    .. [1] Kim, Y. and O'Neal, D. L., "Two-phase flow of R-22 through short-tube orifices",
       ASHRAE Transactions 100(1), 1994: choked flow driven by upstream pressure less a part
       of the flash pressure, as long as the pressure behind lies below saturation.
    """
    choking = np.minimum(flash, LEAST_CHOKED * upstream)
    backed_up = held((downstream - choking) / (upstream - choking), 0.0, 1.0)
    choked = np.maximum(upstream - device.flash_weight * flash, 1.0)
    left: Values = choked * np.maximum(1.0 - backed_up * backed_up, SHUT)
    return left


def metered_flow(
    device: MeteringDevice,
    bulb_superheat: Values,
    driving: Values,
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
    driving : float
        As ``driving_pressure`` gives it. [Pa]
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
    .. [1] Kim and O'Neal 1994, see ``driving_pressure``: flow is cut by inlet quality.
    """
    clear = device.open_area * device.clear_share
    area = clear * opening(device, bulb_superheat) + device.bypass_area
    flash = 1.0 + device.flash_resistance * inlet_quality * (liquid_density / vapour_density - 1.0)
    return area * np.sqrt(2.0 * liquid_density * driving / flash)
