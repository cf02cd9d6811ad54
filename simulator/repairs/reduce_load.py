"""Show the load; shade, seal and insulate before anything is enlarged."""

from dataclasses import replace
from typing import ClassVar

from simulator.plant.installation import Installation
from simulator.repairs._base import Repair, as_drawn


class ReduceLoad(Repair):
    """Show the load; shade, seal and insulate before anything is enlarged."""

    title: ClassVar[str] = "Shade, seal and insulate the house"
    minutes: ClassVar[float] = 960.0
    is_costly: ClassVar[bool] = True
    caution: ClassVar[str | None] = (
        "Attic: heat, joists, nails. A house sealed tight needs fresh air, and fuel-fired "
        "appliances their own: have the draft checked after."
    )
    consequence: ClassVar[str] = (
        "Days of someone else's work; the report shows load against capacity and leaves "
        "the choice to the customer."
    )

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Repair``."""
        drawn, house = as_drawn(installation).house, installation.house
        lighter = replace(
            house,
            conductance=drawn.conductance,
            sun_area=drawn.sun_area,
            internal_gain=drawn.internal_gain,
        )
        return replace(installation, house=lighter)
