"""The compressor's run capacitor has lost capacitance.

References
----------
.. [1] Common practice, no source: the limit is 6 % below the label; faded ones are met down to
   two fifths of it.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    left = unit.compressor.capacitor_share * (1 - severity)
    compressor = replace(unit.compressor, capacitor_share=left)
    return replace(installation, unit=replace(unit, compressor=compressor))


FAULT = FaultKind(
    id="weak_run_capacitor",
    title="Weak run capacitor of the compressor",
    family="Electrical",
    why=(
        "The start winding gets too little current at the wrong angle: amps climb while "
        "pressures, superheat and subcooling say nothing is wrong, and one hot day it "
        "does not start."
    ),
    apply=apply,
    measure="share of the capacitance lost",
    high=0.6,
    typical=0.3,
    modes=("cooling", "heating"),
    prior=0.9,
    hazards=(
        "prove_meter",
        "hazard_look_outdoor",
    ),
    evidence={
        "run_capacitor": ("down", 0.7),
        "compressor_current": ("up", 0.3),
        "outdoor_current": ("up", 0.5),
        "voltage": ("flat", 0.2),
        "suction_pressure": ("flat", 0.2),
        "liquid_pressure": ("flat", 0.2),
    },
    repairs=("replace_capacitor",),
)
