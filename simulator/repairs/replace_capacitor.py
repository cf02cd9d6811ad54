"""Replace the run capacitor by one of the labeled size and voltage."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair


class ReplaceCapacitor(Repair):
    """Replace the run capacitor by one of the labeled size and voltage."""

    title: ClassVar[str] = "Replace the run capacitor"
    minutes: ClassVar[float] = 20.0
    is_costly: ClassVar[bool] = False
    caution: ClassVar[str | None] = (
        "Lock out and prove dead before the panel comes off; discharge capacitors. Local "
        "electrical code applies. The old one can hold its charge for long."
    )
    consequence: ClassVar[str] = "Quick; amps are taken again under load."

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        unit = installation.unit
        compressor = replace(unit.compressor, capacitor_share=1.0)
        return replace(installation, unit=replace(unit, compressor=compressor))
