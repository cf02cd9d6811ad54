"""The supply duct is crushed, kinked or too small.

References
----------
.. [1] Square law of duct resistance; the range is common practice, no source.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    ducts = installation.ducts
    tight = replace(ducts, supply_drop=ducts.supply_drop * (1 + severity))
    return replace(installation, ducts=tight)


FAULT = FaultKind(
    id="restricted_supply_duct",
    title="Supply duct crushed or too small",
    family="Ducts and house",
    why=(
        "A crushed trunk or ducts sized too small hold the air back: pressure piles up "
        "before the tight place and every drop away from it falls with the flow."
    ),
    apply=apply,
    measure="resistance added, in ducts as built",
    kind="ratio",
    counted_in="ducts as built",
    high=4.0,
    typical=2.0,
    modes=("cooling", "heating"),
    prior=0.45,
    hazards=("hazard_look_zone",),
    evidence={
        "static_supply": ("up", 0.5),
        "static_supply_trunk": ("down", 0.4),
        "static_before_filter": ("up", 0.3),
        "coil_airflow": ("down", 0.3),
        "look_filter": ("beside", 0.2),
    },
    repairs=("open_up_ducts",),
)
