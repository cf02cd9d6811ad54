"""Wrap the ducts, vapor barrier outside, joints taped."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair, as_drawn


class InsulateDucts(Repair):
    """Wrap the ducts, vapor barrier outside, joints taped."""

    title: ClassVar[str] = "Insulate the ducts"
    minutes: ClassVar[float] = 240.0
    is_costly: ClassVar[bool] = True
    caution: ClassVar[str | None] = (
        "Attic or crawl space: heat, joists, nails; limit the minutes and tell someone "
        "where you are. Mask and sleeves against fibers. Old wrap may hold asbestos: "
        "leave it and have it tested."
    )
    consequence: ClassVar[str] = (
        "Half a day in the space the ducts run through; leaks are sealed first."
    )

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        drawn, ducts = as_drawn(installation).ducts, installation.ducts
        wrapped = replace(
            ducts,
            supply_conductance=drawn.supply_conductance,
            return_conductance=drawn.return_conductance,
        )
        return replace(installation, ducts=wrapped)
