"""Cooled air is lost to the space the supply ducts run through.

References
----------
.. [1] ANSI/ASHRAE 152: supply leakage as a share of fan flow.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    ducts = installation.ducts
    kept = (1 - ducts.supply_leak) * (1 - severity)
    return replace(installation, ducts=replace(ducts, supply_leak=1 - kept))


FAULT = FaultKind(
    id="supply_leak",
    title="Supply duct leaking outside the rooms",
    family="Ducts and house",
    why=(
        "The coil does its work, part of it never arrives, and the house sucks in outdoor air "
        "to replace what was blown away."
    ),
    apply=apply,
    measure="share of the fan flow lost",
    high=0.6,
    typical=0.2,
    modes=("cooling", "heating"),
    prior=0.6,
    hazards=("hazard_look_zone",),
    evidence={
        "smoke_supply": ("seen", 0.6),
        "look_ducts": ("seen", 0.4),
        "register_sum": ("down", 0.5),
        "coil_airflow": ("flat", 0.3),
        "house_pressure": ("down", 0.4),
        "static_supply": ("down", 0.1),
    },
    repairs=("seal_supply",),
)
