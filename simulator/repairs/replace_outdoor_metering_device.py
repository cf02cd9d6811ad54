"""Fit the outdoor metering device the papers name."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair, outdoor_device_as_sold, recharged


class ReplaceOutdoorMeteringDevice(Repair):
    """Fit the outdoor metering device the papers name."""

    title: ClassVar[str] = "Fit the outdoor metering device the papers name"
    minutes: ClassVar[float] = 120.0
    is_costly: ClassVar[bool] = True
    caution: ClassVar[str | None] = (
        "Goggles and gloves: liquid refrigerant burns skin and eyes. Recovery and charging are "
        "for certified people, by local rules. Nitrogen flows while brazing; mind the fire. If "
        "the charge may burn (A2L): ventilate, keep flames and sparks away until it is out and "
        "the pipes are purged."
    )
    consequence: ClassVar[str] = (
        "Opens the circuit: recovery, a new drier, evacuation and a weighed charge."
    )
    disturbs_charge: ClassVar[bool] = True

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        unit = installation.unit
        # The check valve beside it stays as it was.
        right = replace(outdoor_device_as_sold(unit), bypass_area=unit.heating_metering.bypass_area)
        lines = replace(unit.lines, restriction=0.0)
        fitted = replace(unit, heating_metering=right, lines=lines)
        return replace(installation, unit=recharged(fitted))
