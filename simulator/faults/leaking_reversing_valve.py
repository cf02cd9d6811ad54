"""The slide of the reversing valve lets hot gas slip into the suction.

References
----------
.. [1] Mass and energy balance of the mixed gas, see ``plant.compressing``; the range is
   common practice, no source.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    valve = unit.reversing_valve
    kept = (1 - valve.leak_fraction) * (1 - severity)
    leaking = replace(valve, leak_fraction=1 - kept)
    return replace(installation, unit=replace(unit, reversing_valve=leaking))


FAULT = FaultKind(
    id="leaking_reversing_valve",
    title="Reversing valve leaking inside",
    family="Refrigerant",
    why=(
        "Hot gas slips straight back to the suction: like a leaking compressor it moves less, "
        "but the suction pipe warms on its way through the valve."
    ),
    apply=apply,
    measure="share of the compressor's flow that slips back",
    high=0.5,
    typical=0.2,
    modes=("cooling", "heating"),
    prior=0.08,
    hazards=("hazard_look_outdoor", "prove_meter"),
    evidence={
        "reversing_valve_rise": ("up", 0.6),
        "suction_pressure": ("up", 0.2),
        "liquid_pressure": ("down", 0.2),
        "outdoor_current": ("down", 0.2),
        "discharge_temperature": ("moved", 0.1),
    },
    repairs=("replace_reversing_valve",),
)
