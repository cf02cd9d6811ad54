"""Replace the compressor, evacuate, weigh in."""

from dataclasses import replace
from typing import ClassVar

from simulator.components.compressor import SOUND_INSULATION
from simulator.plant.installation import Installation
from simulator.repairs._base import Repair, recharged


class ReplaceCompressor(Repair):
    """Replace the compressor, evacuate, weigh in."""

    title: ClassVar[str] = "Replace the compressor"
    minutes: ClassVar[float] = 210.0
    is_costly: ClassVar[bool] = True
    caution: ClassVar[str | None] = (
        "Lock out and prove dead before the panel comes off; discharge capacitors. Local "
        "electrical code applies. Goggles and gloves: liquid refrigerant burns skin and eyes. "
        "Recovery and charging are for certified people, by local rules."
    )
    consequence: ClassVar[str] = "The costliest repair there is, and it cannot be taken back."
    disturbs_charge: ClassVar[bool] = True

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        unit = installation.unit
        compressor = replace(
            unit.compressor,
            leak_fraction=0.0,
            is_open=0.0,
            winding_insulation=SOUND_INSULATION,
        )
        return replace(installation, unit=recharged(replace(unit, compressor=compressor)))
