"""Renew contactor and lugs, torque them to the label."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair


class RenewTerminations(Repair):
    """Renew contactor and lugs, torque them to the label."""

    title: ClassVar[str] = "Renew contactor and terminations"
    minutes: ClassVar[float] = 45.0
    is_costly: ClassVar[bool] = False
    caution: ClassVar[str | None] = (
        "Lock out and prove dead before the panel comes off; discharge capacitors. Local "
        "electrical code applies. The line side of the disconnect stays live: licensed "
        "practice. Scorched insulation is cut back, not taped."
    )
    consequence: ClassVar[str] = "The drop under load is taken again after."

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        unit = installation.unit
        circuit = replace(unit.supply_circuit, contact_resistance=0.0, lost_leg=0.0)
        return replace(installation, unit=replace(unit, supply_circuit=circuit))
