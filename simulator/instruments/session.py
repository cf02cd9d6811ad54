"""What a technician's own tools do all day: errors drawn once a visit."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.tools import TOOLS

# Of a visit's chance, as the site branches it.
TOOLS_BRANCH = (1,)


@dataclass(frozen=True, slots=True)
class Session:
    """Errors that stay for one visit.

    Parameters
    ----------
    biases : mapping
        Standard normal draws by tool: added and in proportion. [-]
    draws : mapping
        Uniform draws by measurement, for careless techniques. [-]
    """

    biases: Mapping[str, tuple[float, float]]
    draws: Mapping[str, float]

    @staticmethod
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
        biases = {
            name: tuple(float(x) for x in np.clip(chance.standard_normal(2), -2.0, 2.0))
            for name in sorted(TOOLS)
        }
        draws = {name: float(chance.random()) for name in sorted(MEASUREMENTS)}
        return Session({name: (pair[0], pair[1]) for name, pair in biases.items()}, draws)
