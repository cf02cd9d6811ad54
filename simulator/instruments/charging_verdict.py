"""What superheat or subcooling says of the charge, by metering device.

References
----------
.. [1] California Title 24, Residential Appendix RA3.2, 2008 text.
"""

from dataclasses import dataclass
from typing import Literal

from simulator.instruments.validity import COLDEST
from simulator.plant.charging_chart import LOWEST_TARGET

Verdict = Literal["pass", "fail", "no valid standard test"]
# All RA3.2 (2008 text).
SANE_SUPERHEAT = (4.0 / 1.8, 25.0 / 1.8)  # of a thermostatic valve, no maker's range [delta K]
SUPERHEAT_BAND = 5.0 / 1.8  # about the target of a fixed orifice [delta K]
SUBCOOLING_BAND = 3.0 / 1.8  # about the plate's figure [delta K]


@dataclass(frozen=True, slots=True, kw_only=True)
class ChargingVerdict:
    """One verdict and why.

    Parameters
    ----------
    verdict : str
        ``pass``, ``fail`` or ``no valid standard test``.
    off_by : float, optional
        Found less wanted; less the nearer end of a range; none without a test. [delta K]
    reason : str
        One sentence.
    """

    verdict: Verdict
    off_by: float | None
    reason: str


def valve_verdict(
    superheat: float, allowed: tuple[float, float] = SANE_SUPERHEAT
) -> ChargingVerdict:
    """Whether a thermostatic valve meters as one, which a charge test by subcooling needs.

    Parameters
    ----------
    superheat : float
        At the suction service port. [delta K]
    allowed : tuple
        The maker's range, or that of RA3.2. [delta K]

    Returns
    -------
    ChargingVerdict

    References
    ----------
    .. [1] California Title 24 RA3.2 (2008 text): 4 to 25 °F.

    Examples
    --------
    >>> valve_verdict(10.0).verdict
    'pass'
    """
    low, high = allowed
    off = min(superheat - low, 0.0) + max(superheat - high, 0.0)
    said = f"superheat {_shown(superheat)} °F against {_shown(low)} to {_shown(high)} °F"
    return ChargingVerdict(
        verdict="fail" if off else "pass", off_by=off, reason=f"The valve shows {said}."
    )


def orifice_verdict(superheat: float, target: float, outdoor: float) -> ChargingVerdict:
    """Charge behind a fixed orifice, by superheat.

    Parameters
    ----------
    superheat, target : float
        Found, and from the charging table. [delta K]
    outdoor : float
        Dry bulb. [K]

    Returns
    -------
    ChargingVerdict
        Above the band is low charge, below it is high charge.

    References
    ----------
    .. [1] California Title 24 RA3.2 (2008 text): target ± 5 °F; no entry below 5 °F.
    """
    if outdoor < COLDEST:
        return _too_cold()
    if target < LOWEST_TARGET:
        return ChargingVerdict(
            verdict="no valid standard test",
            off_by=None,
            reason="The table has no entry for so hot or so dry a day.",
        )
    return _about("Superheat", superheat, target, SUPERHEAT_BAND)


def subcooling_verdict(subcooling: float, plate: float, outdoor: float) -> ChargingVerdict:
    """Charge before a thermostatic valve, by subcooling.

    Parameters
    ----------
    subcooling, plate : float
        Found, and as on the plate. [delta K]
    outdoor : float
        Dry bulb. [K]

    Returns
    -------
    ChargingVerdict
        Above the band is high charge, below it is low charge.

    References
    ----------
    .. [1] California Title 24 RA3.2 (2008 text): plate ± 3 °F.
    """
    if outdoor < COLDEST:
        return _too_cold()
    return _about("Subcooling", subcooling, plate, SUBCOOLING_BAND)


def _too_cold() -> ChargingVerdict:
    return ChargingVerdict(
        verdict="no valid standard test",
        off_by=None,
        reason="Below 55 °F outdoors no standard test is valid: weigh in.",
    )


def _about(name: str, found: float, wanted: float, band: float) -> ChargingVerdict:
    off = found - wanted
    return ChargingVerdict(
        verdict="fail" if abs(off) > band else "pass",
        off_by=off,
        reason=f"{name} is {_shown(off, '+')} °F off its target; ±{_shown(band)} °F are allowed.",
    )


def _shown(difference: float, sign: str = "") -> str:
    return f"{difference * 1.8:{sign}.0f}"
