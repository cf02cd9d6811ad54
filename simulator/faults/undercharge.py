"""Refrigerant missing from the circuit."""

from dataclasses import replace
from typing import ClassVar

from simulator.faults._base import Fault
from simulator.plant.installation import Installation


class Undercharge(Fault):
    """Part of the plate charge has leaked out or was never put in.

    References
    ----------
    .. [1] Domanski, Henderson and Payne, NIST Technical Note 1848, 2014: fault intensity as a
       share of nominal charge.
    """

    title: ClassVar[str] = "Low refrigerant charge"
    family: ClassVar[str] = "Refrigerant"
    why: ClassVar[str] = (
        "The outdoor coil keeps less liquid, so subcooling goes first; the metering device then "
        "gets vapour with its liquid and starves the indoor coil."
    )
    measure: ClassVar[str] = "share of the plate charge missing"
    high: ClassVar[float] = 0.5
    typical: ClassVar[float] = 0.2

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Fault``."""
        unit = installation.unit
        return replace(installation, unit=replace(unit, charge=unit.charge * (1 - self.severity)))
