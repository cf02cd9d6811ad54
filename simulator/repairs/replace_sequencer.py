"""Replace the strip sequencer and put its wiring right."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair


class ReplaceSequencer(Repair):
    """Replace the strip sequencer and put its wiring right."""

    title: ClassVar[str] = "Replace the strip sequencer"
    minutes: ClassVar[float] = 45.0
    is_costly: ClassVar[bool] = False
    caution: ClassVar[str | None] = (
        "Lock out and prove dead before the panel comes off; discharge capacitors. Local "
        "electrical code applies. Strips carry 240 V and stay hot."
    )
    consequence: ClassVar[str] = (
        "The air handler is opened; strips must be proven off over two cycles."
    )

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        unit = installation.unit
        strips = replace(unit.strips, energised_power=0.0)
        return replace(installation, unit=replace(unit, strips=strips))
