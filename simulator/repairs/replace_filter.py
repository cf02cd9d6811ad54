"""Put in a clean filter of the right size."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair


class ReplaceFilter(Repair):
    """Put in a clean filter of the right size."""

    title: ClassVar[str] = "Replace the filter"
    minutes: ClassVar[float] = 4.0
    is_costly: ClassVar[bool] = False
    caution: ClassVar[str | None] = "Blower off before the filter comes out."
    consequence: ClassVar[str] = "Cheap and quick."

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        return replace(installation, ducts=replace(installation.ducts, filter_loading=1.0))
