"""Registers or branch dampers of the far rooms stand closed.

References
----------
.. [1] Parallel branches, square law of duct resistance.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    ducts = installation.ducts
    near = len(ducts.damper_openings) // 2
    openings = tuple(
        opening if place < near else opening * (1 - severity)
        for place, opening in enumerate(ducts.damper_openings)
    )
    return replace(installation, ducts=replace(ducts, damper_openings=openings))


FAULT = FaultKind(
    id="closed_registers",
    title="Registers or branch dampers closed",
    family="Ducts and house",
    why=(
        "Closed rooms save nothing: the blower works against fewer branches, the supply "
        "pressure rises, and what is left for the open rooms is more than they want and "
        "less than the coil needs."
    ),
    apply=apply,
    measure="how far the registers of the far rooms are closed",
    high=1.0,
    typical=0.8,
    modes=("cooling", "heating"),
    prior=0.5,
    evidence={
        "look_registers": ("seen", 0.6),
        "static_supply": ("up", 0.4),
        "coil_airflow": ("down", 0.3),
        "register_sum": ("down", 0.3),
        "static_before_filter": ("up", 0.2),
    },
    repairs=("open_registers",),
)
