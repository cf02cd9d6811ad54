"""Electric strips behind the blower."""

from dataclasses import dataclass

import numpy as np

from simulator.quantities.values import Values

# Air leaving a heater never exceeds 200 °F, UL 1995 (from memory); limits in the air beside the
# elements open sooner: 175 °F of mixed air, common practice, no source [K].
LIMIT_OPENS = 352.6


@dataclass(frozen=True, slots=True, kw_only=True)
class ElectricStrips:
    """What strips are fitted and which are on.

    Parameters
    ----------
    installed_power : float
        At the voltage on their plate. [W]
    energised_power : float
        Of the elements now on, at the voltage on their plate. [W]
    working_share : float
        Part of the elements that are whole. [-]
    plate_voltage : float
        [V]
    """

    installed_power: Values
    energised_power: Values
    working_share: Values
    plate_voltage: Values


def strip_power(strips: ElectricStrips, voltage: Values) -> Values:
    """Power at another voltage: a resistance takes V²/R.

    Parameters
    ----------
    strips : ElectricStrips
        The strips.
    voltage : float
        At the terminals. [V]

    Returns
    -------
    float
        [W]

    Examples
    --------
    >>> round(strip_power(ElectricStrips(installed_power=9600.0, energised_power=9600.0,
    ...     working_share=1.0, plate_voltage=240.0), 208.0) / 9600.0, 3)
    0.751
    """
    return strips.energised_power * strips.working_share * (voltage / strips.plate_voltage) ** 2


def limited_power(power: Values, most: Values) -> Values:
    """What the limit leaves of the strips' power, on and off again over some minutes.

    Parameters
    ----------
    power : float
        Of the elements that are on. [W]
    most : float
        That brings the air to where the limit opens. [W]

    Returns
    -------
    float
        Mean over its cycles. [W]
    """
    return np.clip(most, 0.0, power)


def motor_current(power: Values, voltage: Values, power_factor: Values) -> Values:
    """Current of a single-phase load.

    Parameters
    ----------
    power : float
        [W]
    voltage : float
        [V]
    power_factor : float
        [-]

    Returns
    -------
    float
        [A]
    """
    return power / (voltage * power_factor)
