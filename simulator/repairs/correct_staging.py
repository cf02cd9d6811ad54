"""Take the jumper out, set droop and lockout of the strips."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair, as_drawn


class CorrectStaging(Repair):
    """Take the jumper out, set droop and lockout of the strips."""

    title: ClassVar[str] = "Correct the staging of the strips: wiring, droop, lockout"
    minutes: ClassVar[float] = 40.0
    is_costly: ClassVar[bool] = False
    caution: ClassVar[str | None] = (
        "Lock out and prove dead before the panel comes off; discharge capacitors. Local "
        "electrical code applies. Strips carry 240 V and stay hot."
    )
    consequence: ClassVar[str] = (
        "Both stages are called one after the other afterwards, and a defrost is waited for: "
        "strips belong to it."
    )

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        new = as_drawn(installation).controls
        controls = replace(
            installation.controls,
            strips_with_every_call=new.strips_with_every_call,
            auxiliary_droop=new.auxiliary_droop,
            auxiliary_lockout=new.auxiliary_lockout,
        )
        return replace(installation, controls=controls)
