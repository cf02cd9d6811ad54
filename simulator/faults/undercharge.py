"""Part of the nameplate charge has leaked out or was never put in.

References
----------
.. [1] Domanski, Henderson and Payne, NIST Technical Note 1848, 2014: fault intensity as a
   share of nominal charge.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    return replace(installation, unit=replace(unit, charge=unit.charge * (1 - severity)))


FAULT = FaultKind(
    id="undercharge",
    title="Low refrigerant charge",
    family="Refrigerant",
    why=(
        "The outdoor coil keeps less liquid, so subcooling goes first; the metering device then "
        "gets vapour with its liquid and starves the indoor coil."
    ),
    apply=apply,
    measure="share of the nameplate charge missing",
    high=0.5,
    typical=0.2,
    modes=("cooling", "heating"),
    prior=0.8,
    hazards=("hazard_look_outdoor",),
    evidence={
        "liquid_pressure": ("down", 0.35),
        "liquid_line_temperature": ("moved", 0.35),
        "suction_pressure": ("moved", 0.15),
        "suction_line_temperature": ("up", 0.2),
        "coil_airflow": ("flat", 0.3),
    },
    repairs=("weigh_in_charge",),
)
