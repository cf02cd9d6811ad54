"""Clear drain and trap, dry the pan, prove the float."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair


class ClearDrain(Repair):
    """Clear drain and trap, dry the pan, prove the float."""

    title: ClassVar[str] = "Clear the drain and prove the float"
    minutes: ClassVar[float] = 40.0
    is_costly: ClassVar[bool] = False
    caution: ClassVar[str | None] = (
        "Water near live parts: power off before the panel comes off. A float switch is "
        "never bridged."
    )
    consequence: ClassVar[str] = (
        "Messy; the float is lifted by hand to prove that it still stops the compressor."
    )

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        return replace(installation, unit=replace(installation.unit, float_switch_open=0.0))
