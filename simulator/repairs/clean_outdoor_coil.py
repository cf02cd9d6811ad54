"""Wash the outdoor coil from the inside out and clear around it."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair


class CleanOutdoorCoil(Repair):
    """Wash the outdoor coil from the inside out and clear around it."""

    title: ClassVar[str] = "Clean the outdoor coil"
    minutes: ClassVar[float] = 35.0
    is_costly: ClassVar[bool] = False
    caution: ClassVar[str | None] = (
        "Lock out and prove dead before the panel comes off; discharge capacitors. Local "
        "electrical code applies."
    )
    consequence: ClassVar[str] = "The unit stands still and wet for a while."

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        unit = installation.unit
        coil = replace(unit.outdoor_coil, blocked_fraction=0.0)
        return replace(installation, unit=replace(unit, outdoor_coil=coil))
