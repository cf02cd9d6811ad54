"""Fit the filter slot cover and fasten loose panels."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair


class FitSlotCover(Repair):
    """Fit the filter slot cover and fasten loose panels."""

    title: ClassVar[str] = "Fit the filter slot cover and panels"
    minutes: ClassVar[float] = 6.0
    is_costly: ClassVar[bool] = False
    consequence: ClassVar[str] = "Cheap and quick."

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        return replace(installation, ducts=replace(installation.ducts, slot_area=0.0))
