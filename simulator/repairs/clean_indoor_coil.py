"""Wash the indoor coil from the side the dirt came in."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair, as_sold


class CleanIndoorCoil(Repair):
    """Wash the indoor coil from the side the dirt came in."""

    title: ClassVar[str] = "Clean the indoor coil"
    minutes: ClassVar[float] = 110.0
    is_costly: ClassVar[bool] = False
    caution: ClassVar[str | None] = (
        "Lock out and prove dead before the panel comes off; discharge capacitors. Local "
        "electrical code applies. Fins cut, coil cleaners burn: gloves, goggles, fresh "
        "air. Where the charge may burn (A2L), no flame or spark near the coil."
    )
    consequence: ClassVar[str] = (
        "The air handler is opened and stands wet; the drain carries the dirt away."
    )

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        unit = installation.unit
        right, coil = as_sold(unit).indoor_coil, unit.indoor_coil
        clean = replace(
            coil,
            wet_pressure_drop=right.wet_pressure_drop,
            air_conductance=right.air_conductance,
            dry_conductance=right.dry_conductance,
        )
        return replace(installation, unit=replace(unit, indoor_coil=clean))
