"""Clean the wheel, renew the weak motor part, set the tap as designed."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair


class ServiceBlower(Repair):
    """Clean the wheel, renew the weak motor part, set the tap as designed."""

    title: ClassVar[str] = "Service the indoor blower"
    minutes: ClassVar[float] = 70.0
    is_costly: ClassVar[bool] = False
    caution: ClassVar[str | None] = (
        "Lock out and prove dead before the panel comes off; discharge capacitors. Local "
        "electrical code applies."
    )
    consequence: ClassVar[str] = "The air handler is opened and the wheel comes out."

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        unit = installation.unit
        blower = replace(unit.blower, torque_fraction=1.0)
        return replace(installation, unit=replace(unit, blower=blower))
