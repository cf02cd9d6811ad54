"""Search for a leak; with none found, renew the detector and clear its lock."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair


class RenewLeakDetector(Repair):
    """Search for a leak; with none found, renew the detector and clear its lock."""

    title: ClassVar[str] = "Search for a leak, renew the detector"
    minutes: ClassVar[float] = 75.0
    is_costly: ClassVar[bool] = False
    caution: ClassVar[str | None] = (
        "The charge may burn (A2L): ventilate and sniff first, no flame or spark until "
        "the air is proven clear. A detector is never bridged. Local code and certified "
        "practice apply."
    )
    consequence: ClassVar[str] = (
        "A leak that is found is a repair of its own; the sensor has a service life and "
        "its date goes on the label."
    )

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        return replace(installation, unit=replace(installation.unit, leak_detector_open=0.0))
