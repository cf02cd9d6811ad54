"""The damper of the second zone stays where it is, open a little or not at all.

References
----------
.. [1] Square law of duct resistance.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    if severity == 0.0:
        return installation
    ducts = installation.ducts
    first, (called, resting) = ducts.zone_dampers
    # Stuck is stuck: it stands there whichever zone calls.
    stands = called - severity * (called - resting)
    return replace(installation, ducts=replace(ducts, zone_dampers=(first, (stands, stands))))


FAULT = FaultKind(
    id="stuck_zone_damper",
    title="Zone damper stuck half shut or shut",
    family="Ducts and house",
    why=(
        "The second zone, calling alone, gets little or nothing: the other damper has closed "
        "and its own does not open, the supply pressure climbs and the coil starves of "
        "air. When only the first zone calls, a damper stuck half open lets air go where "
        "nobody asked for it. In a house of one zone there is no such damper."
    ),
    apply=apply,
    measure="how far shut the second zone's damper stands",
    high=1.0,
    typical=0.7,
    prior=0.15,
    hazards=("hazard_look_zone",),
    evidence={
        "static_supply": ("up", 0.5),
        "register_sum": ("down", 0.4),
        "coil_airflow": ("down", 0.3),
        "static_before_filter": ("up", 0.2),
    },
    repairs=("replace_zone_actuator",),
)
