"""Renew the defrost board and its sensor, set the pins, melt the ice off."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair, as_drawn


class RenewDefrostControl(Repair):
    """Renew the defrost board and its sensor, set the pins, melt the ice off."""

    title: ClassVar[str] = "Renew the defrost control and its sensor, melt the ice off"
    minutes: ClassVar[float] = 90.0
    is_costly: ClassVar[bool] = False
    caution: ClassVar[str | None] = (
        "Lock out and prove dead before the panel comes off; discharge capacitors. Local "
        "electrical code applies. No pick or flame on the coil: a punctured tube vents "
        "refrigerant. Ice and melt underfoot."
    )
    consequence: ClassVar[str] = "Two whole defrosts are watched afterwards to prove it."

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        new, unit = as_drawn(installation).controls, installation.unit
        controls = replace(
            installation.controls,
            defrost_enabled=new.defrost_enabled,
            defrost_interval=new.defrost_interval,
            defrost_demand=new.defrost_demand,
            defrost_end_temperature=new.defrost_end_temperature,
            defrost_limit=new.defrost_limit,
        )
        bare = replace(unit, outdoor_coil=replace(unit.outdoor_coil, frost=0.0))
        return replace(installation, unit=bare, controls=controls)
