"""Open all registers and branch dampers, and say why."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair


class OpenRegisters(Repair):
    """Open all registers and branch dampers, and say why."""

    title: ClassVar[str] = "Open the registers and branch dampers"
    minutes: ClassVar[float] = 15.0
    is_costly: ClassVar[bool] = False
    caution: ClassVar[str | None] = "Mind the ladder."
    consequence: ClassVar[str] = "Quick; the customer should hear why closing rooms does not save."

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        ducts = installation.ducts
        openings = tuple(1.0 for _ in ducts.damper_openings)
        return replace(installation, ducts=replace(ducts, damper_openings=openings))
