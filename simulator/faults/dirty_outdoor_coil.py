"""Dirt between the fins holds back the outdoor air.

References
----------
.. [1] NREL OpenStudio fault models: condenser fault as a reduction of condenser airflow.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    kept = (1 - unit.outdoor_coil.blocked_fraction) * (1 - severity)
    coil = replace(unit.outdoor_coil, blocked_fraction=1 - kept)
    return replace(installation, unit=replace(unit, outdoor_coil=coil))


FAULT = FaultKind(
    id="dirty_outdoor_coil",
    title="Dirty or blocked outdoor coil",
    family="Outdoor air",
    why=(
        "Less air must carry the same heat, so it leaves hotter and the head rises with it; "
        "power follows the head. While heating it leaves colder, and the coil frosts sooner."
    ),
    apply=apply,
    measure="share of the outdoor airflow lost",
    high=0.7,
    typical=0.4,
    modes=("cooling", "heating"),
    prior=0.8,
    hazards=("hazard_look_outdoor", "prove_meter"),
    evidence={
        "look_outdoor_coil": ("seen", 0.6),
        "outdoor_leaving_temperature": ("moved", 0.3),
        "liquid_pressure": ("moved", 0.2),
        "outdoor_current": ("up", 0.2),
    },
    repairs=("clean_outdoor_coil",),
)
