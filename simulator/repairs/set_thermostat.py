"""Move or calibrate the thermostat, fan to automatic."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair, as_drawn


class SetThermostat(Repair):
    """Move or calibrate the thermostat, fan to automatic."""

    title: ClassVar[str] = "Calibrate the thermostat, seal the hole behind it, fan to automatic"
    minutes: ClassVar[float] = 40.0
    is_costly: ClassVar[bool] = False
    caution: ClassVar[str | None] = (
        "Control power off before the thermostat leaves its base: a crossed wire takes the "
        "transformer with it."
    )
    consequence: ClassVar[str] = "The customer is shown the settings, and agrees to them."

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        new = as_drawn(installation).controls
        controls = replace(
            installation.controls,
            thermostat_offset=new.thermostat_offset,
            fan_always_on=new.fan_always_on,
            emergency_heat=new.emergency_heat,
        )
        return replace(installation, controls=controls)
