"""A blower that does not push as it should."""

from dataclasses import replace
from typing import ClassVar

from simulator.faults._base import Fault
from simulator.plant.installation import Installation


class WeakBlower(Fault):
    """The motor has lost torque: weak capacitor, failing module, wrong tap.

    References
    ----------
    .. [1] Fan laws: at a fixed duct, airflow follows the root of the torque.
    """

    title: ClassVar[str] = "Weak indoor blower"
    family: ClassVar[str] = "Indoor air"
    why: ClassVar[str] = (
        "Airflow is low and so is every static pressure: nothing blocks the air, there is just "
        "less push."
    )
    measure: ClassVar[str] = "share of the motor's torque lost"
    high: ClassVar[float] = 0.75
    typical: ClassVar[float] = 0.5

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Fault``."""
        unit = installation.unit
        blower = replace(
            unit.blower, torque_fraction=unit.blower.torque_fraction * (1 - self.severity)
        )
        return replace(installation, unit=replace(unit, blower=blower))
