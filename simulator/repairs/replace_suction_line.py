"""Replace the damaged stretch of suction line."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair, recharged


class ReplaceSuctionLine(Repair):
    """Replace the damaged stretch of suction line."""

    title: ClassVar[str] = "Replace the damaged stretch of suction line"
    minutes: ClassVar[float] = 150.0
    is_costly: ClassVar[bool] = True
    caution: ClassVar[str | None] = (
        "Goggles and gloves: liquid refrigerant burns skin and eyes. Recovery and charging are "
        "for certified people, by local rules. Nitrogen flows while brazing; mind the fire. If "
        "the charge may burn (A2L): ventilate, keep flames and sparks away until it is out and "
        "the pipes are purged."
    )
    consequence: ClassVar[str] = (
        "Opens the circuit: recovery, brazing, evacuation and a weighed charge."
    )
    disturbs_charge: ClassVar[bool] = True

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        unit = installation.unit
        lines = replace(unit.lines, suction_restriction=0.0)
        return replace(installation, unit=recharged(replace(unit, lines=lines)))
