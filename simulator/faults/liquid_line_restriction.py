"""An obstruction in the liquid line."""

from dataclasses import replace
from typing import ClassVar

from simulator.faults._base import Fault
from simulator.plant.installation import Installation


class LiquidLineRestriction(Fault):
    """A plugged drier or a kinked pipe before the metering device.

    References
    ----------
    .. [1] Domanski, Henderson and Payne, NIST Technical Note 1848, 2014: restriction as a
       share of the pressure difference between condenser and evaporator.
    """

    title: ClassVar[str] = "Restricted liquid line or drier"
    family: ClassVar[str] = "Refrigerant"
    why: ClassVar[str] = (
        "Pressure is lost before the metering device: liquid backs up behind it, the liquid "
        "flashes and cools across it, and the indoor coil starves."
    )
    measure: ClassVar[str] = "share of the available pressure drop, at rated flow"
    high: ClassVar[float] = 0.6
    typical: ClassVar[float] = 0.3

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Fault``."""
        unit = installation.unit
        added = self.severity * unit.rated_pressure_difference
        lines = replace(unit.lines, restriction=unit.lines.restriction + added)
        return replace(installation, unit=replace(unit, lines=lines))
