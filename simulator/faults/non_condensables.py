"""Air, left by poor evacuation, sits in the outdoor coil.

References
----------
.. [1] Dalton's law of partial pressures; Yoon, Payne and Domanski, NIST Technical Note
   1848 and companion reports, for its place among field faults.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.circuit import GAS_CONSTANT
from simulator.plant.installation import Installation

REFERENCE_TEMPERATURE = 319.0  # condensing at the rating point [K]
REFERENCE_GAS_SHARE = 0.86  # of the outdoor coil not full of liquid there


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    room = unit.outdoor_coil.tube_volume * REFERENCE_GAS_SHARE
    moles = severity * room / (GAS_CONSTANT * REFERENCE_TEMPERATURE)
    return replace(installation, unit=replace(unit, foreign_gas=unit.foreign_gas + moles))


FAULT = FaultKind(
    id="non_condensables",
    title="Air or other gas in the refrigerant",
    family="Refrigerant",
    why=(
        "Gas that cannot condense adds its own pressure to the head, so the gauge shows more "
        "subcooling than there is, while the liquid line stays where it was."
    ),
    apply=apply,
    measure="partial pressure of the gas in the outdoor coil at rating",
    kind="pressure_difference",
    high=80.0,
    typical=30.0,
    modes=("cooling", "heating"),
    prior=0.1,
    hazards=("hazard_look_outdoor",),
    evidence={
        "liquid_pressure": ("up", 0.4),
        "liquid_line_temperature": ("beside", 0.3),
        "outdoor_temperature": ("beside", 0.2),
        "outdoor_leaving_temperature": ("flat", 0.2),
    },
    repairs=("weigh_in_charge",),
)
