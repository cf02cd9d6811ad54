"""More than the nameplate charge was put in.

References
----------
.. [1] Domanski, Henderson and Payne, NIST Technical Note 1848, 2014.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    return replace(installation, unit=replace(unit, charge=unit.charge * (1 + severity)))


FAULT = FaultKind(
    id="overcharge",
    title="Too much refrigerant",
    family="Refrigerant",
    why=(
        "Liquid backs up in the outdoor coil: subcooling and head rise, power rises, and little "
        "or no cooling is gained."
    ),
    apply=apply,
    measure="share of the nameplate charge in excess",
    high=0.5,
    typical=0.2,
    modes=("cooling", "heating"),
    prior=0.4,
    hazards=("hazard_look_outdoor",),
    evidence={
        "liquid_pressure": ("up", 0.4),
        "liquid_line_temperature": ("down", 0.4),
        "outdoor_temperature": ("beside", 0.1),
        "coil_airflow": ("flat", 0.3),
        "outdoor_current": ("up", 0.1),
    },
    repairs=("weigh_in_charge",),
)
