"""Strap the valve bulb to clean pipe and insulate it."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair


class StrapBulb(Repair):
    """Strap the valve bulb to clean pipe and insulate it."""

    title: ClassVar[str] = "Strap the valve bulb to clean pipe and insulate it"
    minutes: ClassVar[float] = 25.0
    is_costly: ClassVar[bool] = False
    caution: ClassVar[str | None] = "Blower off before hands go in; sharp fins and edges."
    consequence: ClassVar[str] = "Nothing is opened. Superheat settles within a quarter of an hour."

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        unit = installation.unit
        metering = replace(unit.metering, bulb_offset=0.0)
        return replace(installation, unit=replace(unit, metering=metering))
