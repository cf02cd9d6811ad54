"""Another refrigerant than the plate's was put in.

References
----------
.. [1] ANSI/ASHRAE Standard 34: compositions of the refrigerants; their pressures follow from
   the tables under ``properties``.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation

# What is at hand and fits the hose: chosen, no source.
TAKEN_FOR = {"R-410A": "R-454B", "R-454B": "R-410A", "R-32": "R-410A", "R-22": "R-410A"}


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    if severity <= 0.0:
        return installation
    other = TAKEN_FOR[unit.plate_refrigerant]
    return replace(installation, unit=replace(unit, refrigerant=other))


FAULT = FaultKind(
    id="wrong_refrigerant",
    title="Wrong refrigerant in the circuit",
    family="Refrigerant",
    why=(
        "Another fluid boils and condenses at other pressures, so both saturation columns of the "
        "plate's chart lie, running and standing."
    ),
    apply=apply,
    measure="whether it is there",
    high=1.0,
    typical=1.0,
    is_all_or_nothing=True,
    modes=("cooling", "heating"),
    prior=0.1,
    hazards=("hazard_look_outdoor",),
    evidence={
        "suction_pressure": ("down", 0.4),
        "liquid_pressure": ("down", 0.4),
        "outdoor_temperature": ("beside", 0.2),
        "discharge_temperature": ("moved", 0.2),
    },
    repairs=("weigh_in_charge",),
)
