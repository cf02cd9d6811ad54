"""The blower runs on a tap too fast for its coil.

References
----------
.. [1] Fan laws: at a fixed duct, airflow follows the root of the torque.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    blower = replace(unit.blower, torque_fraction=unit.blower.torque_fraction * (1 + severity))
    return replace(installation, unit=replace(unit, blower=blower))


FAULT = FaultKind(
    id="fast_blower",
    title="Indoor blower set too fast",
    family="Indoor air",
    why=(
        "More air than the coil is made for: every static pressure rises, the coil runs "
        "warmer and wrings out less water, so the rooms are cool and clammy."
    ),
    apply=apply,
    measure="torque added over that of the right tap",
    high=1.25,
    typical=0.6,
    modes=("cooling", "heating"),
    prior=0.15,
    hazards=(
        "hazard_look_air_handler",
        "prove_meter",
    ),
    evidence={
        "coil_airflow": ("up", 0.5),
        "static_after_filter": ("down", 0.3),
        "static_supply": ("up", 0.3),
        "air_handler_current": ("up", 0.2),
    },
    repairs=("service_blower",),
)
