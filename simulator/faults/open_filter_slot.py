"""A filter slot without its cover."""

from dataclasses import replace
from typing import ClassVar

from simulator.faults._base import Fault
from simulator.plant.installation import Installation


class OpenFilterSlot(Fault):
    """Air is drawn past the filter through an open slot or a loose panel.

    References
    ----------
    .. [1] Orifice flow, ASHRAE Handbook, Fundamentals, Ventilation and Infiltration; the range
       of openings is common practice, no source.
    """

    title: ClassVar[str] = "Filter slot cover or panel missing"
    family: ClassVar[str] = "Ducts and house"
    why: ClassVar[str] = (
        "The blower takes the easy way in: air around the air handler skips filter and rooms, "
        "and the filter's own drop falls."
    )
    measure: ClassVar[str] = "open area"
    unit: ClassVar[str] = "in²"
    unit_in_si: ClassVar[float] = 0.00064516
    high: ClassVar[float] = 80.0
    typical: ClassVar[float] = 30.0

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Fault``."""
        ducts = installation.ducts
        return replace(
            installation, ducts=replace(ducts, slot_area=ducts.slot_area + self.severity)
        )
