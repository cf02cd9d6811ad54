"""Renew open elements, links and limits of the strips."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair


class ReplaceStripElement(Repair):
    """Renew open elements, links and limits of the strips."""

    title: ClassVar[str] = "Replace the open strip element"
    minutes: ClassVar[float] = 60.0
    is_costly: ClassVar[bool] = False
    caution: ClassVar[str | None] = (
        "Lock out and prove dead before the panel comes off; discharge capacitors. Local "
        "electrical code applies. Strips carry 240 V and stay hot. A limit is never "
        "bridged."
    )
    consequence: ClassVar[str] = "The air handler is opened; each element's amps are taken after."

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        unit = installation.unit
        strips = replace(unit.strips, working_share=1.0)
        return replace(installation, unit=replace(unit, strips=strips))
