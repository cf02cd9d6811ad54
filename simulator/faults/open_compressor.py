"""The compressor's motor circuit is open: overload tripped, or a winding gone.

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
    is_open = max(unit.compressor.is_open, float(severity > 0.0))
    compressor = replace(unit.compressor, is_open=is_open)
    return replace(installation, unit=replace(unit, compressor=compressor))


FAULT = FaultKind(
    id="open_compressor",
    title="Compressor open on overload or winding",
    family="Electrical",
    why=(
        "Both fans run and nothing is pumped: the pressures stand equal at what the "
        "outdoor air makes of the refrigerant, and the amps are those of a fan."
    ),
    apply=apply,
    measure="whether it is open",
    high=1.0,
    typical=1.0,
    is_all_or_nothing=True,
    modes=("cooling", "heating"),
    prior=0.25,
    hazards=(
        "prove_meter",
        "hazard_look_outdoor",
    ),
    evidence={
        "winding_resistance": ("up", 0.6),
        "contactor_coil": ("flat", 0.2),
        "outdoor_current": ("down", 0.5),
        "winding_insulation": ("flat", 0.2),
        "suction_pressure": ("up", 0.3),
        "liquid_pressure": ("down", 0.3),
        "coil_airflow": ("flat", 0.2),
    },
    repairs=("replace_compressor",),
)
