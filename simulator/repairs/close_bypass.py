"""Shut the bypass damper and set its weight."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair


class CloseBypass(Repair):
    """Shut the bypass damper and set its weight."""

    title: ClassVar[str] = "Shut and set the bypass damper"
    minutes: ClassVar[float] = 30.0
    is_costly: ClassVar[bool] = False
    caution: ClassVar[str | None] = "Blower off before hands go in."
    consequence: ClassVar[str] = "Quick; static pressure with one zone calling is checked after."

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        return replace(installation, ducts=replace(installation.ducts, bypass_share=0.0))
