"""Which measurements bear on which cause, and how much; each fault says so itself."""

from collections.abc import Mapping
from functools import lru_cache

from simulator.calls.choice import NO_FAULT
from simulator.faults._base import Evidence
from simulator.faults._catalogue import discover

ENOUGH = 1.0  # summed weight that carries a reversible repair [-]
# That nothing is wrong is carried by what stays as it should; common practice, no source.
SOUND: Mapping[str, Evidence] = {
    "coil_airflow": ("flat", 0.4),
    "liquid_pressure": ("flat", 0.2),
    "suction_pressure": ("flat", 0.2),
    "register_sum": ("flat", 0.2),
    "air_handler_current": ("flat", 0.2),
}


@lru_cache
def evidence() -> Mapping[str, Mapping[str, Evidence]]:
    """Sign and weight of each measurement by cause.

    Returns
    -------
    mapping
        Of every fault, and of no fault.
    """
    return {**{code: fault.evidence for code, fault in discover().items()}, NO_FAULT: SOUND}


@lru_cache
def weights() -> Mapping[str, Mapping[str, float]]:
    """Weight of each measurement by cause.

    Returns
    -------
    mapping
        As the faults say. [-]
    """
    return {
        cause: {name: weight for name, (_, weight) in bearing.items()}
        for cause, bearing in evidence().items()
    }


def support(cause: str, measurements: Mapping[str, float]) -> float:
    """How well readings carry a cause.

    Parameters
    ----------
    cause : str
        Its code.
    measurements : mapping
        Worth of each cited measurement, 1 for one taken with care. [-]

    Returns
    -------
    float
        From 0 to 1. [-]
    """
    bearing = weights().get(cause, {})
    found = sum(bearing.get(name, 0.0) * worth for name, worth in measurements.items())
    return min(found / ENOUGH, 1.0)


def strongest(cause: str) -> str:
    """The measurement that tells most about a cause.

    Parameters
    ----------
    cause : str
        Its code.

    Returns
    -------
    str
        Measurement.
    """
    bearing = weights()[cause]
    return max(bearing, key=lambda name: bearing[name])
