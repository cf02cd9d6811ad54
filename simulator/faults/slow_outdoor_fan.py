"""The outdoor fan turns slowly, or not at all.

References
----------
.. [1] Fan laws: airflow follows speed; the range is common practice, no source.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    coil = replace(unit.outdoor_coil, fan_fraction=unit.outdoor_coil.fan_fraction * (1 - severity))
    return replace(installation, unit=replace(unit, outdoor_coil=coil))


FAULT = FaultKind(
    id="slow_outdoor_fan",
    title="Outdoor fan slow or standing",
    family="Outdoor air",
    why=(
        "A dragging bearing, a tired capacitor or a loose blade moves less air over a "
        "clean coil: it leaves hotter while cooling and colder while heating, the head "
        "follows, and a fan that stands trips the switch."
    ),
    apply=apply,
    measure="share of the fan's speed lost",
    high=1.0,
    typical=0.5,
    modes=("cooling", "heating"),
    prior=0.5,
    hazards=(
        "hazard_look_outdoor",
        "prove_meter",
    ),
    evidence={
        "outdoor_leaving_temperature": ("moved", 0.5),
        "liquid_pressure": ("moved", 0.4),
        "look_outdoor_coil": ("beside", 0.2),
        "outdoor_temperature": ("beside", 0.1),
    },
    repairs=("replace_fan_motor",),
)
