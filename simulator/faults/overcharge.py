"""Too much refrigerant in the circuit."""

from dataclasses import replace
from typing import ClassVar

from simulator.faults._base import Fault
from simulator.plant.installation import Installation


class Overcharge(Fault):
    """More than the plate charge was put in.

    References
    ----------
    .. [1] Domanski, Henderson and Payne, NIST Technical Note 1848, 2014.
    """

    title: ClassVar[str] = "Too much refrigerant"
    family: ClassVar[str] = "Refrigerant"
    why: ClassVar[str] = (
        "Liquid backs up in the outdoor coil: subcooling and head rise, power rises, and little "
        "or no cooling is gained."
    )
    measure: ClassVar[str] = "share of the plate charge in excess"
    high: ClassVar[float] = 0.5
    typical: ClassVar[float] = 0.2

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Fault``."""
        unit = installation.unit
        return replace(installation, unit=replace(unit, charge=unit.charge * (1 + self.severity)))
