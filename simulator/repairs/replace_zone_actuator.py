"""Free the zone damper and renew its actuator."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair, as_drawn


class ReplaceZoneActuator(Repair):
    """Free the zone damper and renew its actuator."""

    title: ClassVar[str] = "Free the zone damper, renew its actuator"
    minutes: ClassVar[float] = 60.0
    is_costly: ClassVar[bool] = False
    caution: ClassVar[str | None] = (
        "Lock out and prove dead before the panel comes off; discharge capacitors. Local "
        "electrical code applies. Attic or crawl space: heat, joists, nails."
    )
    consequence: ClassVar[str] = "Each zone is called alone afterwards to prove it."

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        drawn = as_drawn(installation).ducts.zone_dampers
        return replace(installation, ducts=replace(installation.ducts, zone_dampers=drawn))
