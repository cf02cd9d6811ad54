"""Take refrigerant out into a recovery cylinder."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair


class RecoverRefrigerant(Repair):
    """Take refrigerant out into a recovery cylinder."""

    title: ClassVar[str] = "Recover refrigerant"
    minutes: ClassVar[float] = 15.0
    is_costly: ClassVar[bool] = True
    caution: ClassVar[str | None] = (
        "Goggles and gloves: liquid refrigerant burns skin and eyes. Recovery and charging "
        "are for certified people, by local rules."
    )
    consequence: ClassVar[str] = "What is taken out is weighed and kept; it is never vented."
    amount_name: ClassVar[str | None] = "refrigerant recovered"
    low: ClassVar[float] = 0.01
    high: ClassVar[float] = 2.5
    disturbs_charge: ClassVar[bool] = True

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        unit = installation.unit
        left = max(unit.charge - self.amount, 0.05 * unit.plate_charge)
        return replace(installation, unit=replace(unit, charge=left))
