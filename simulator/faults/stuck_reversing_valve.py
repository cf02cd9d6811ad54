"""The slide of the reversing valve stays where it should have left.

References
----------
.. [1] Common practice, no source.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    stuck = float(severity > 0.0)
    valve = replace(unit.reversing_valve, is_stuck=max(unit.reversing_valve.is_stuck, stuck))
    return replace(installation, unit=replace(unit, reversing_valve=valve))


FAULT = FaultKind(
    id="stuck_reversing_valve",
    title="Reversing valve not shifting",
    family="Refrigerant",
    why=(
        "The circuit runs the other way round: a call for cooling heats the house and a call for "
        "heating cools it, while every part does its work."
    ),
    apply=apply,
    measure="whether it is stuck",
    high=1.0,
    typical=1.0,
    is_all_or_nothing=True,
    modes=("cooling", "heating"),
    prior=0.15,
    hazards=("hazard_look_outdoor", "prove_meter"),
    evidence={
        "supply_dry_bulb": ("moved", 0.6),
        "outdoor_leaving_temperature": ("moved", 0.5),
        "coil_airflow": ("flat", 0.2),
    },
    repairs=("replace_reversing_valve",),
)
