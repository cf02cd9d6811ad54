"""A supply duct that leaks outside the rooms."""

from dataclasses import replace
from typing import ClassVar

from simulator.faults._base import Fault
from simulator.plant.installation import Installation


class SupplyLeak(Fault):
    """Cooled air is lost to the space the supply ducts run through.

    References
    ----------
    .. [1] ANSI/ASHRAE 152: supply leakage as a share of fan flow.
    """

    title: ClassVar[str] = "Supply duct leaking outside the rooms"
    family: ClassVar[str] = "Ducts and house"
    why: ClassVar[str] = (
        "The coil does its work, part of it never arrives, and the house sucks in outdoor air "
        "to replace what was blown away."
    )
    measure: ClassVar[str] = "share of the fan flow lost"
    high: ClassVar[float] = 0.6
    typical: ClassVar[float] = 0.2

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Fault``."""
        ducts = installation.ducts
        kept = (1 - ducts.supply_leak) * (1 - self.severity)
        return replace(installation, ducts=replace(ducts, supply_leak=1 - kept))
