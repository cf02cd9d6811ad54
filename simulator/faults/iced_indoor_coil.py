"""Ice fills the passages of the indoor coil.

References
----------
.. [1] Common practice, no source.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    coil = unit.indoor_coil
    free = (1 - coil.ice) * (1 - severity)
    return replace(installation, unit=replace(unit, indoor_coil=replace(coil, ice=1 - free)))


FAULT = FaultKind(
    id="iced_indoor_coil",
    title="Indoor coil iced over",
    family="Indoor air",
    why=(
        "Ice closes the coil: hardly any air passes, suction falls with the heat that no "
        "longer comes, and no reading of the charge is worth anything before it has "
        "thawed."
    ),
    apply=apply,
    measure="share of the passages closed",
    high=1.0,
    typical=0.5,
    prior=0.3,
    hazards=("hazard_look_air_handler",),
    evidence={
        "look_indoor_coil": ("seen", 0.6),
        "static_after_coil": ("down", 0.5),
        "coil_airflow": ("down", 0.4),
        "suction_pressure": ("down", 0.3),
        "static_supply": ("down", 0.2),
    },
    repairs=("thaw_indoor_coil",),
)
