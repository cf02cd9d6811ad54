"""Air is drawn past the filter through an open slot or a loose panel.

On the reference unit 30 in² pass 200 cfm of 1,220 at the 0.15 in wc that are left behind the
filter; its drop falls with the square of what still meets it, by 30 % of 0.12 in wc: 0.033. The
0.08 that technicians look for is two thirds of that drop: beside a clean filter even 80 in²
give 0.06. Before a loaded filter of 0.31 in wc the same 30 in² give 0.11.

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
