"""A winding of the compressor lies on its shell; the breaker opens.

References
----------
.. [1] Common practice, no source: a burnt winding reads next to nothing to the shell.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation

GROUNDED = 0.5  # of a winding burnt through to the shell [ohm]


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    if not severity:
        return installation
    unit = installation.unit
    left = min(unit.compressor.winding_insulation, GROUNDED)
    compressor = replace(unit.compressor, winding_insulation=left)
    return replace(installation, unit=replace(unit, compressor=compressor))


FAULT = FaultKind(
    id="grounded_compressor",
    title="Compressor burnt to ground",
    family="Electrical",
    why=(
        "Current finds its way from a winding to the shell and the breaker opens: the whole "
        "outdoor unit is dead, its fan too, while the thermostat calls and the blower runs. "
        "Switched on again it only burns more."
    ),
    apply=apply,
    measure="whether it is grounded",
    high=1.0,
    typical=1.0,
    is_all_or_nothing=True,
    modes=("cooling", "heating"),
    prior=0.1,
    hazards=(
        "prove_meter",
        "hazard_look_outdoor",
    ),
    evidence={
        "winding_insulation": ("down", 0.7),
        "look_breakers": ("seen", 0.5),
        "compressor_voltage": ("down", 0.3),
        "contactor_coil": ("flat", 0.2),
        "outdoor_current": ("down", 0.3),
        "suction_pressure": ("up", 0.2),
        "liquid_pressure": ("down", 0.2),
    },
    repairs=("replace_compressor",),
)
