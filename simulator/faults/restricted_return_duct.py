"""The return duct is crushed, kinked or too small.

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
    tight = replace(ducts, return_drop=ducts.return_drop * (1 + severity))
    return replace(installation, ducts=tight)


FAULT = FaultKind(
    id="restricted_return_duct",
    title="Return duct crushed or too small",
    family="Ducts and house",
    why=(
        "The blower cannot draw what the return does not let through: suction deepens "
        "before the filter while the filter's and the coil's own drops fall with the "
        "flow."
    ),
    apply=apply,
    measure="resistance added, in ducts as built",
    kind="ratio",
    counted_in="ducts as built",
    high=4.0,
    typical=2.5,
    modes=("cooling", "heating"),
    prior=0.45,
    hazards=("hazard_look_zone",),
    evidence={
        "static_before_filter": ("down", 0.5),
        "static_supply": ("down", 0.3),
        "static_after_filter": ("down", 0.3),
        "look_filter": ("beside", 0.2),
    },
    repairs=("open_up_ducts",),
)
