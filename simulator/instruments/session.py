"""What a technician's own tools do all day: errors drawn once a visit."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from zlib import crc32

import numpy as np

from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.tools import TOOLS

# Of a visit's chance, as the site branches it.
TOOLS_BRANCH = (1,)
BATTERY, HOSES = "battery", "hoses"
LOW_BATTERY = 0.7  # draws above this find the meters' battery low; common practice, no source


@dataclass(frozen=True, slots=True)
class Session:
    """Errors that stay for one visit.

    Parameters
    ----------
    biases : mapping
        Standard normal draws by tool: added and in proportion. [-]
    draws : mapping
        Uniform draws by measurement, for careless techniques, one for the meters' battery
        and one for what long hoses take. [-]
    """

    biases: Mapping[str, tuple[float, float]]
    draws: Mapping[str, float]

    @staticmethod
    @lru_cache(maxsize=64)
    def of_visit(seed: int) -> "Session":
        """The tools of one visit by its seed, the same that its readings are taken with.

        Parameters
        ----------
        seed : int
            Of the visit's chance.

        Returns
        -------
        Session
        """
        branch = np.random.SeedSequence(seed, spawn_key=TOOLS_BRANCH)
        return Session.drawn(np.random.default_rng(branch))

    @staticmethod
    def drawn(chance: np.random.Generator) -> "Session":
        """Errors of one visit.

        Parameters
        ----------
        chance : Generator
            The visit's own.

        Returns
        -------
        Session
            The same for the same generator state.
        """
        root = int(chance.integers(2**32))

        def by_name(name: str) -> np.random.Generator:
            # By name, so that a tool added to the catalogue leaves the others as they were.
            return np.random.default_rng((root, crc32(name.encode())))

        biases = {}
        for name in TOOLS:
            pair = np.clip(by_name(f"tool {name}").standard_normal(2), -2.0, 2.0)
            biases[name] = (float(pair[0]), float(pair[1]))
        draws = {name: float(by_name(name).random()) for name in (*MEASUREMENTS, BATTERY, HOSES)}
        return Session(biases, draws)


def battery_drift(draw: float) -> float:
    """What a low battery makes of a meter's reading: 1 to 4 % high.

    Parameters
    ----------
    draw : float
        The visit's, from 0 to 1. [-]

    Returns
    -------
    float
        Shown over true; 1 with a good battery. Sizes are common practice, no source. [-]
    """
    low = (draw - LOW_BATTERY) / (1.0 - LOW_BATTERY)
    return 1.0 if low <= 0.0 else 1.01 + 0.03 * low
