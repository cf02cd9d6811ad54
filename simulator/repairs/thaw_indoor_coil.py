"""Thaw the indoor coil with the compressor off and the blower on."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair


class ThawIndoorCoil(Repair):
    """Thaw the indoor coil with the compressor off and the blower on."""

    title: ClassVar[str] = "Thaw the indoor coil"
    minutes: ClassVar[float] = 120.0
    is_costly: ClassVar[bool] = False
    caution: ClassVar[str | None] = (
        "No blade, pick or flame on the coil: a punctured tube vents refrigerant. Keep "
        "the melt off wiring; power off where water has run."
    )
    consequence: ClassVar[str] = "Hours go by; what made the ice is still to be found."

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        unit = installation.unit
        coil = replace(unit.indoor_coil, ice=0.0)
        return replace(installation, unit=replace(unit, indoor_coil=coil))
