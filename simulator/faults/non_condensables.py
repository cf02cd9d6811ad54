"""Air in the refrigerant circuit."""

from dataclasses import replace
from typing import ClassVar

from simulator.faults._base import Fault
from simulator.plant.circuit import GAS_CONSTANT
from simulator.plant.installation import Installation

REFERENCE_TEMPERATURE = 319.0  # condensing at the rating point [K]
REFERENCE_GAS_SHARE = 0.86  # of the outdoor coil not full of liquid there


class NonCondensables(Fault):
    """Air, left by poor evacuation, sits in the outdoor coil.

    References
    ----------
    .. [1] Dalton's law of partial pressures; Yoon, Payne and Domanski, NIST Technical Note
       1848 and companion reports, for its place among field faults.
    """

    title: ClassVar[str] = "Air or other gas in the refrigerant"
    family: ClassVar[str] = "Refrigerant"
    why: ClassVar[str] = (
        "Gas that cannot condense adds its own pressure to the head, so the gauge shows more "
        "subcooling than there is, while the liquid line stays where it was."
    )
    measure: ClassVar[str] = "partial pressure of the gas in the outdoor coil at rating"
    unit: ClassVar[str] = "psi"
    unit_in_si: ClassVar[float] = 6894.757293168
    high: ClassVar[float] = 80.0
    typical: ClassVar[float] = 30.0

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Fault``."""
        unit = installation.unit
        room = unit.outdoor_coil.tube_volume * REFERENCE_GAS_SHARE
        moles = self.severity * room / (GAS_CONSTANT * REFERENCE_TEMPERATURE)
        return replace(installation, unit=replace(unit, foreign_gas=unit.foreign_gas + moles))
