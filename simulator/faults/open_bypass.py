"""A bypass damper between supply and return plenum stands open.

References
----------
.. [1] Mass and enthalpy mixing.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    ducts = installation.ducts
    kept = (1 - ducts.bypass_share) * (1 - severity)
    return replace(installation, ducts=replace(ducts, bypass_share=1 - kept))


FAULT = FaultKind(
    id="open_bypass",
    title="Bypass between supply and return open",
    family="Ducts and house",
    why=(
        "Supply air goes straight back to the coil: the air there is colder than the "
        "rooms are, or warmer in winter, the coil works on its own product and the "
        "registers get the rest."
    ),
    apply=apply,
    measure="share of the fan flow that returns at once",
    high=0.5,
    typical=0.25,
    modes=("cooling", "heating"),
    prior=0.12,
    hazards=("hazard_look_air_handler",),
    evidence={
        "return_dry_bulb": ("moved", 0.5),
        "grille_dry_bulb": ("beside", 0.2),
        "register_sum": ("down", 0.4),
        "coil_airflow": ("flat", 0.2),
    },
    repairs=("close_bypass",),
)
