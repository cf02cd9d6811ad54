"""Replace the check valve beside the metering device."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair, recharged


class ReplaceCheckValve(Repair):
    """Replace the check valve beside the metering device."""

    title: ClassVar[str] = "Replace the check valve beside the metering device"
    minutes: ClassVar[float] = 130.0
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
        tight = replace(
            unit,
            metering=replace(unit.metering, bypass_area=0.0),
            heating_metering=replace(unit.heating_metering, bypass_area=0.0),
        )
        return replace(installation, unit=recharged(tight))
