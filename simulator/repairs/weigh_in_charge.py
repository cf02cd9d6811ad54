"""Find and mend the leak, evacuate, weigh in the nameplate charge."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair, recharged


class WeighInCharge(Repair):
    """Find and mend the leak, evacuate, weigh in the nameplate charge."""

    title: ClassVar[str] = "Find leak, evacuate and weigh in the nameplate charge"
    minutes: ClassVar[float] = 95.0
    is_costly: ClassVar[bool] = True
    caution: ClassVar[str | None] = (
        "Goggles and gloves: liquid refrigerant burns skin and eyes. Recovery and charging are "
        "for certified people, by local rules. If the charge may burn (A2L): ventilate, keep "
        "flames and sparks away until it is out and the pipes are purged."
    )
    consequence: ClassVar[str] = (
        "Takes most of the visit and uses new refrigerant; needs a leak search first."
    )
    disturbs_charge: ClassVar[bool] = True

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        return replace(installation, unit=recharged(installation.unit))
