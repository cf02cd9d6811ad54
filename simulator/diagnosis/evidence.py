"""Which measurements bear on which cause, and how much."""

import tomllib
from collections.abc import Mapping
from functools import lru_cache
from importlib.resources import files

ENOUGH = 1.0  # summed weight that carries a reversible repair [-]


@lru_cache
def weights() -> Mapping[str, Mapping[str, float]]:
    """Weight of each measurement by cause.

    Returns
    -------
    mapping
        From the data file.
    """
    text = files("simulator.diagnosis").joinpath("evidence.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


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
