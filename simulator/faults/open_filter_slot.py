"""Air is drawn past the filter through an open slot or a loose panel.

References
----------
.. [1] Orifice flow, ASHRAE Handbook, Fundamentals, Ventilation and Infiltration; the range
   of openings is common practice, no source.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    ducts = installation.ducts
    return replace(installation, ducts=replace(ducts, slot_area=ducts.slot_area + severity))


FAULT = FaultKind(
    id="open_filter_slot",
    title="Filter slot cover or panel missing",
    family="Ducts and house",
    why=(
        "The blower takes the easy way in: air around the air handler skips filter and rooms, "
        "and the filter's own drop falls."
    ),
    apply=apply,
    measure="open area",
    kind="area",
    high=80.0,
    typical=30.0,
    modes=("cooling", "heating"),
    prior=0.2,
    hazards=("hazard_look_air_handler",),
    evidence={
        "look_slot": ("seen", 0.7),
        "smoke_return": ("seen", 0.3),
        "return_dry_bulb": ("moved", 0.2),
        "static_after_filter": ("up", 0.2),
    },
    repairs=("fit_slot_cover",),
)
