"""Seal the return ducts, the platform and the panel gaskets."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair


class SealReturn(Repair):
    """Seal the return ducts, the platform and the panel gaskets."""

    title: ClassVar[str] = "Seal the return side"
    minutes: ClassVar[float] = 60.0
    is_costly: ClassVar[bool] = False
    caution: ClassVar[str | None] = (
        "Mind sharp metal, and combustion appliances nearby: house pressure changes. Have "
        "them checked."
    )
    consequence: ClassVar[str] = "Mastic and gaskets on every joint upstream of the blower."

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        ducts = installation.ducts
        sealed = replace(ducts, return_leak=min(ducts.return_leak, ducts.built_return_leak))
        return replace(installation, ducts=sealed)
