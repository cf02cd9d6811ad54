"""Electric strips that stay on while cooling."""

from dataclasses import replace
from typing import ClassVar

import numpy as np

from simulator.faults._base import Fault
from simulator.plant.installation import Installation


class StripsOn(Fault):
    """A welded sequencer or a wrong wire keeps strips on.

    References
    ----------
    .. [1] Resistance heating, P = V²/R.
    """

    title: ClassVar[str] = "Electric strips on during cooling"
    family: ClassVar[str] = "Electrical"
    why: ClassVar[str] = (
        "The strips sit behind the coil: the refrigerant side knows nothing of them while they "
        "heat the air that was just cooled, and the meter spins."
    )
    measure: ClassVar[str] = "strip power on, at plate voltage"
    unit: ClassVar[str] = "kW"
    unit_in_si: ClassVar[float] = 1000.0
    high: ClassVar[float] = 15.0
    typical: ClassVar[float] = 9.6

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Fault``."""
        unit = installation.unit
        strips = replace(
            unit.strips,
            energised_power=unit.strips.energised_power + self.severity,
            installed_power=np.maximum(
                unit.strips.installed_power, unit.strips.energised_power + self.severity
            ),
        )
        return replace(installation, unit=replace(unit, strips=strips))
