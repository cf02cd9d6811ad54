"""Add refrigerant to the running system."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair


class AddRefrigerant(Repair):
    """Add refrigerant to the running system."""

    title: ClassVar[str] = "Add refrigerant"
    minutes: ClassVar[float] = 12.0
    is_costly: ClassVar[bool] = True
    caution: ClassVar[str | None] = (
        "Goggles and gloves: liquid refrigerant burns skin and eyes. Recovery and charging "
        "are for certified people, by local rules."
    )
    consequence: ClassVar[str] = "What is added stays in; taking it out again means recovery."
    amount_name: ClassVar[str | None] = "refrigerant added"
    low: ClassVar[float] = 0.01
    high: ClassVar[float] = 2.5
    disturbs_charge: ClassVar[bool] = True

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        unit = installation.unit
        return replace(installation, unit=replace(unit, charge=unit.charge + self.amount))
