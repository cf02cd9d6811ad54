"""Renew the outdoor fan motor and its capacitor, set the blade."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair


class ReplaceFanMotor(Repair):
    """Renew the outdoor fan motor and its capacitor, set the blade."""

    title: ClassVar[str] = "Renew the outdoor fan motor"
    minutes: ClassVar[float] = 75.0
    is_costly: ClassVar[bool] = False
    caution: ClassVar[str | None] = (
        "Lock out and prove dead before the panel comes off; discharge capacitors. Local "
        "electrical code applies. Blades cut: nothing turns while hands are inside."
    )
    consequence: ClassVar[str] = (
        "The top comes off; blade height, turning direction and amps are checked after."
    )

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        unit = installation.unit
        coil = replace(unit.outdoor_coil, fan_fraction=1.0)
        return replace(installation, unit=replace(unit, outdoor_coil=coil))
