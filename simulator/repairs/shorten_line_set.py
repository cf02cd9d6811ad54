"""Move the outdoor unit near and run a short, insulated line set."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair, as_sold, recharged


class ShortenLineSet(Repair):
    """Move the outdoor unit near and run a short, insulated line set."""

    title: ClassVar[str] = "Move the outdoor unit near and run a short, insulated line set"
    minutes: ClassVar[float] = 420.0
    is_costly: ClassVar[bool] = True
    caution: ClassVar[str | None] = (
        "Lock out and prove dead before the panel comes off; discharge capacitors. Local "
        "electrical code applies. Goggles and gloves: liquid refrigerant burns skin and eyes. "
        "Recovery and charging are for certified people, by local rules. Nitrogen flows while "
        "brazing; mind the fire. If the charge may burn (A2L): ventilate, keep flames and "
        "sparks away until it is out and the pipes are purged."
    )
    consequence: ClassVar[str] = (
        "A day's work for two, with a new pad, wiring and a permit where one is asked for."
    )
    disturbs_charge: ClassVar[bool] = True

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        unit = installation.unit
        right = as_sold(unit).lines
        return replace(installation, unit=recharged(replace(unit, lines=right)))
