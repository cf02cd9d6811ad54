"""Straighten, open or enlarge the ducts to what the drawing asks for."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair, as_drawn


class OpenUpDucts(Repair):
    """Straighten, open or enlarge the ducts to what the drawing asks for."""

    title: ClassVar[str] = "Straighten or enlarge the ducts"
    minutes: ClassVar[float] = 180.0
    is_costly: ClassVar[bool] = True
    caution: ClassVar[str | None] = (
        "Attic or crawl space: heat, joists, nails; limit the minutes and tell someone "
        "where you are. Old wrap may hold asbestos: leave it and have it tested."
    )
    consequence: ClassVar[str] = (
        "Sheet metal work in tight places; static pressures are taken again after."
    )

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        drawn, ducts = as_drawn(installation).ducts, installation.ducts
        opened = replace(ducts, return_drop=drawn.return_drop, supply_drop=drawn.supply_drop)
        return replace(installation, ducts=opened)
