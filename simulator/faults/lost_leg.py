"""One leg of the outdoor unit's supply is gone: a lug burnt off, a pole that does not make.

References
----------
.. [1] Kirchhoff's voltage law: the other leg comes back through the winding, so each terminal
   stands at half the line's voltage to ground and there is none between them.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    lost = max(unit.supply_circuit.lost_leg, float(severity > 0.0))
    circuit = replace(unit.supply_circuit, lost_leg=lost)
    return replace(installation, unit=replace(unit, supply_circuit=circuit))


FAULT = FaultKind(
    id="lost_leg",
    title="One leg of the outdoor unit lost",
    family="Electrical",
    why=(
        "Both terminals show half the line's voltage to ground, as they should, for the whole "
        "leg comes back through the winding; between them there is nothing. Only a reading "
        "from leg to leg, or over each pole, tells."
    ),
    apply=apply,
    measure="whether a leg is lost",
    high=1.0,
    typical=1.0,
    is_all_or_nothing=True,
    modes=("cooling", "heating"),
    prior=0.05,
    hazards=(
        "prove_meter",
        "hazard_look_outdoor",
    ),
    evidence={
        "compressor_voltage": ("down", 0.6),
        "contactor_drop": ("up", 0.5),
        "look_wires": ("seen", 0.5),
        "leg_1_voltage": ("flat", 0.2),
        "leg_2_voltage": ("flat", 0.2),
        "voltage": ("flat", 0.2),
        "contactor_coil": ("flat", 0.2),
        "outdoor_current": ("down", 0.3),
    },
    repairs=("renew_terminations",),
)
