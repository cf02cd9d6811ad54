"""The wrap of supply and return ducts is missing, torn or soaked.

References
----------
.. [1] ASHRAE Handbook, Fundamentals, surface film resistances: about 0.2 m² K/W of films in the
   1.4 of a wrapped duct.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation

FILM_SHARE = 0.14  # of the films in the resistance of a wrapped R-8 duct [-]


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    ducts = installation.ducts
    leaks_more = 1 / (1 - (1 - FILM_SHARE) * severity)
    bare = replace(
        ducts,
        supply_conductance=ducts.supply_conductance * leaks_more,
        return_conductance=ducts.return_conductance * leaks_more,
    )
    return replace(installation, ducts=bare)


FAULT = FaultKind(
    id="missing_duct_insulation",
    title="Duct insulation missing or wet",
    family="Ducts and house",
    why=(
        "The air leaves the coil as it should and all of it arrives, but through thin "
        "walls it takes up the heat of the space on its way, and gives it off there in "
        "winter."
    ),
    apply=apply,
    measure="share of the insulation lost",
    high=1.0,
    typical=0.7,
    modes=("cooling", "heating"),
    prior=0.35,
    hazards=("hazard_look_zone",),
    evidence={
        "far_register_temperature": ("moved", 0.5),
        "near_register_temperature": ("moved", 0.3),
        "register_sum": ("flat", 0.3),
        "coil_airflow": ("flat", 0.1),
    },
    repairs=("insulate_ducts",),
)
