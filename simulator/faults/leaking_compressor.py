"""Hot gas blows back from discharge to suction.

References
----------
.. [1] Domanski, Henderson and Payne, NIST Technical Note 1848, 2014: compressor valve
   leakage as a share of refrigerant flow.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    kept = (1 - unit.compressor.leak_fraction) * (1 - severity)
    compressor = replace(unit.compressor, leak_fraction=1 - kept)
    return replace(installation, unit=replace(unit, compressor=compressor))


FAULT = FaultKind(
    id="leaking_compressor",
    title="Compressor leaking inside",
    family="Refrigerant",
    why=(
        "Less gas is moved: suction rises, head falls, amps fall, and the gas that is squeezed "
        "twice leaves hotter."
    ),
    apply=apply,
    measure="share of the volume flow that blows back",
    high=0.6,
    typical=0.25,
    modes=("cooling", "heating"),
    prior=0.1,
    hazards=("hazard_look_outdoor", "prove_meter"),
    evidence={
        "suction_pressure": ("up", 0.3),
        "liquid_pressure": ("down", 0.3),
        "outdoor_current": ("down", 0.3),
        "discharge_temperature": ("moved", 0.2),
        "reversing_valve_rise": ("flat", 0.3),
    },
    repairs=("replace_compressor",),
)
