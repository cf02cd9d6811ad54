"""A plugged drier or a kinked pipe before the metering device.

References
----------
.. [1] Domanski, Henderson and Payne, NIST Technical Note 1848, 2014: restriction as a
   share of the pressure difference between condenser and evaporator.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    added = severity * unit.rated_pressure_difference
    lines = replace(unit.lines, restriction=unit.lines.restriction + added)
    return replace(installation, unit=replace(unit, lines=lines))


FAULT = FaultKind(
    id="liquid_line_restriction",
    title="Restricted liquid line or drier",
    family="Refrigerant",
    why=(
        "Pressure is lost before the metering device: liquid backs up behind it, the liquid "
        "flashes and cools across it, and the indoor coil starves."
    ),
    apply=apply,
    measure="share of the available pressure drop, at rated flow",
    high=0.6,
    typical=0.3,
    modes=("cooling", "heating"),
    prior=0.1,
    hazards=("hazard_look_outdoor",),
    evidence={
        "liquid_line_temperature": ("down", 0.3),
        "liquid_after_drier_temperature": ("down", 0.5),
        "suction_pressure": ("down", 0.2),
        "suction_line_temperature": ("up", 0.2),
    },
    repairs=("replace_drier",),
)
