"""Refit, fasten and seal the supply ducts."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair, reconnected


class SealSupply(Repair):
    """Refit, fasten and seal the supply ducts."""

    title: ClassVar[str] = "Refit and seal the supply ducts"
    minutes: ClassVar[float] = 75.0
    is_costly: ClassVar[bool] = False
    caution: ClassVar[str | None] = (
        "Attic: heat, joists and nails; limit the minutes and tell someone where you are."
    )
    consequence: ClassVar[str] = "Work in the space the ducts run through; mastic, not cloth tape."

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        ducts = reconnected(installation.ducts)
        sealed = replace(ducts, supply_leak=min(ducts.supply_leak, ducts.built_supply_leak))
        return replace(installation, ducts=sealed)
