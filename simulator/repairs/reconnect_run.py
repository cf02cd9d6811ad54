"""Put the run back on its collar, strap, seal and label it."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair, reconnected


class ReconnectRun(Repair):
    """Put the run back on its collar, strap, seal and label it."""

    title: ClassVar[str] = "Reconnect the supply run"
    minutes: ClassVar[float] = 40.0
    is_costly: ClassVar[bool] = False
    caution: ClassVar[str | None] = (
        "Attic or crawl space: heat, joists, nails; limit the minutes and tell someone "
        "where you are."
    )
    consequence: ClassVar[str] = (
        "Work in the space the ducts run through; the room's flow is taken after."
    )

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        return replace(installation, ducts=reconnected(installation.ducts))
