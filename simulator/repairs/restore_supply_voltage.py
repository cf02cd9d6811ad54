"""Have utility or electrician put the supply right."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair


class RestoreSupplyVoltage(Repair):
    """Have utility or electrician put the supply right."""

    title: ClassVar[str] = "Have the supply put right"
    minutes: ClassVar[float] = 90.0
    is_costly: ClassVar[bool] = True
    caution: ClassVar[str | None] = (
        "Work on service, meter and panel is for the utility and licensed electricians; "
        "local electrical code applies."
    )
    consequence: ClassVar[str] = (
        "Someone else's work: the report names the volts, the load and the hour."
    )

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        unit = installation.unit
        circuit = replace(unit.supply_circuit, sag=0.0)
        return replace(installation, unit=replace(unit, supply_circuit=circuit))
