"""Recover, replace the liquid-line drier and its pipe, evacuate, weigh in."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair, recharged


class ReplaceDrier(Repair):
    """Recover, replace the liquid-line drier and its pipe, evacuate, weigh in."""

    title: ClassVar[str] = "Replace liquid-line drier, evacuate, weigh in"
    minutes: ClassVar[float] = 110.0
    is_costly: ClassVar[bool] = True
    caution: ClassVar[str | None] = (
        "Goggles and gloves: liquid refrigerant burns skin and eyes. Recovery and charging "
        "are for certified people, by local rules. Nitrogen flows while brazing; mind the "
        "fire."
    )
    consequence: ClassVar[str] = (
        "Opens the circuit: recovery, brazing, evacuation and a weighed charge."
    )
    disturbs_charge: ClassVar[bool] = True

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        unit = installation.unit
        lines = replace(unit.lines, restriction=0.0)
        return replace(installation, unit=recharged(replace(unit, lines=lines)))
