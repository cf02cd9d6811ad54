"""What every fault is."""

from dataclasses import dataclass
from typing import ClassVar

from simulator.plant.installation import Installation


@dataclass(frozen=True, slots=True)
class Fault:
    """A worse installation made from a healthy one.

    Parameters
    ----------
    severity : float
        In SI of the fault's own measure; 0 changes nothing.
    """

    severity: float

    title: ClassVar[str]
    family: ClassVar[str]
    why: ClassVar[str]
    # The measure as people enter it, and what one of it is in SI.
    measure: ClassVar[str]
    unit: ClassVar[str] = "-"
    unit_in_si: ClassVar[float] = 1.0
    # Field range and a middling case, in that unit.
    low: ClassVar[float] = 0.0
    high: ClassVar[float]
    typical: ClassVar[float]

    def applied_to(self, installation: Installation) -> Installation:
        """The installation with this fault in it.

        Parameters
        ----------
        installation : Installation
            Left as it is.

        Returns
        -------
        Installation
            Changed in physical parameters only.
        """
        raise TypeError(f"{type(self).__name__} does not say what it changes")
