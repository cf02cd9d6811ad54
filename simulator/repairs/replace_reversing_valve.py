"""Replace the reversing valve."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair, recharged


class ReplaceReversingValve(Repair):
    """Replace the reversing valve."""

    title: ClassVar[str] = "Replace the reversing valve"
    minutes: ClassVar[float] = 180.0
    is_costly: ClassVar[bool] = True
    caution: ClassVar[str | None] = (
        "Lock out and prove dead before the panel comes off; discharge capacitors. Local "
        "electrical code applies. Goggles and gloves: liquid refrigerant burns skin and eyes. "
        "Recovery and charging are for certified people, by local rules. Nitrogen flows while "
        "brazing; mind the fire. If the charge may burn (A2L): ventilate, keep flames and "
        "sparks away until it is out and the pipes are purged."
    )
    consequence: ClassVar[str] = (
        "Opens the circuit and takes most of a day's visit; the valve body must stay cool while "
        "it is brazed."
    )
    disturbs_charge: ClassVar[bool] = True

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        unit = installation.unit
        valve = replace(unit.reversing_valve, leak_fraction=0.0, is_stuck=0.0)
        return replace(installation, unit=recharged(replace(unit, reversing_valve=valve)))
