"""A filter that has caught too much."""

from dataclasses import replace
from typing import ClassVar

from simulator.faults._base import Fault
from simulator.plant.installation import Installation


class LoadedFilter(Fault):
    """Dust multiplies the resistance of the filter.

    References
    ----------
    .. [1] ASHRAE Standard 52.2: filter resistance rises with dust load; the range is common
       practice, no source.
    """

    title: ClassVar[str] = "Loaded or too restrictive filter"
    family: ClassVar[str] = "Indoor air"
    why: ClassVar[str] = (
        "The drop across the filter takes the blower's pressure, so less air crosses the coil "
        "and the drops across everything else fall."
    )
    measure: ClassVar[str] = "resistance added, in clean filters"
    unit: ClassVar[str] = "clean filters"
    high: ClassVar[float] = 12.0
    typical: ClassVar[float] = 8.0

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Fault``."""
        ducts = installation.ducts
        loaded = replace(ducts, filter_loading=ducts.filter_loading + self.severity)
        return replace(installation, ducts=loaded)
