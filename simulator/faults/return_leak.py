"""Air from attic, garage or crawl space is drawn in behind the filter.

References
----------
.. [1] ANSI/ASHRAE 152: return leakage as a share of fan flow.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    ducts = installation.ducts
    kept = (1 - ducts.return_leak) * (1 - severity)
    return replace(installation, ducts=replace(ducts, return_leak=1 - kept))


FAULT = FaultKind(
    id="return_leak",
    title="Return duct leaking outside the rooms",
    family="Ducts and house",
    why=(
        "The coil is handed hotter or damper air than the rooms hold: it works harder, even "
        "looks stronger, and part of its work is spent on air nobody breathes."
    ),
    apply=apply,
    measure="share of the fan flow drawn in",
    high=0.5,
    typical=0.15,
    modes=("cooling", "heating"),
    prior=0.5,
    hazards=("hazard_look_air_handler", "hazard_look_zone"),
    evidence={
        "smoke_return": ("seen", 0.6),
        "look_slot": ("seen", 0.4),
        "return_dry_bulb": ("moved", 0.3),
        "grille_dry_bulb": ("beside", 0.3),
        "return_wet_bulb": ("moved", 0.3),
        "grille_wet_bulb": ("beside", 0.2),
        "return_zone_temperature": ("beside", 0.2),
        "static_before_filter": ("up", 0.1),
        "static_after_filter": ("up", 0.1),
        "house_pressure": ("up", 0.1),
    },
    repairs=("seal_return",),
)
