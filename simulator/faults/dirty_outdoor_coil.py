"""An outdoor coil that air cannot get through."""

from dataclasses import replace
from typing import ClassVar

from simulator.faults._base import Fault
from simulator.plant.installation import Installation


class DirtyOutdoorCoil(Fault):
    """Dirt between the fins holds back the outdoor air.

    References
    ----------
    .. [1] NREL OpenStudio fault models: condenser fault as a reduction of condenser airflow.
    """

    title: ClassVar[str] = "Dirty or blocked outdoor coil"
    family: ClassVar[str] = "Outdoor air"
    why: ClassVar[str] = (
        "Less air must carry the same heat, so it leaves hotter and the head rises with it; "
        "power follows the head."
    )
    measure: ClassVar[str] = "share of the outdoor airflow lost"
    high: ClassVar[float] = 0.7
    typical: ClassVar[float] = 0.4

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Fault``."""
        unit = installation.unit
        kept = (1 - unit.outdoor_coil.blocked_fraction) * (1 - self.severity)
        coil = replace(unit.outdoor_coil, blocked_fraction=1 - kept)
        return replace(installation, unit=replace(unit, outdoor_coil=coil))
