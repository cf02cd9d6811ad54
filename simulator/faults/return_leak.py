"""A return duct that draws from outside the rooms."""

from dataclasses import replace
from typing import ClassVar

from simulator.faults._base import Fault
from simulator.plant.installation import Installation


class ReturnLeak(Fault):
    """Air from attic, garage or crawl space is drawn in behind the filter.

    References
    ----------
    .. [1] ANSI/ASHRAE 152: return leakage as a share of fan flow.
    """

    title: ClassVar[str] = "Return duct leaking outside the rooms"
    family: ClassVar[str] = "Ducts and house"
    why: ClassVar[str] = (
        "The coil is handed hotter or damper air than the rooms hold: it works harder, even "
        "looks stronger, and part of its work is spent on air nobody breathes."
    )
    measure: ClassVar[str] = "share of the fan flow drawn in"
    high: ClassVar[float] = 0.5
    typical: ClassVar[float] = 0.15

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Fault``."""
        ducts = installation.ducts
        kept = (1 - ducts.return_leak) * (1 - self.severity)
        return replace(installation, ducts=replace(ducts, return_leak=1 - kept))
