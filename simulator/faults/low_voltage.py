"""The supply sags before it reaches the equipment.

References
----------
.. [1] ANSI C84.1: service voltage within 5 % of nominal, larger sags are out of range; their
   size is common practice, no source.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    circuit = unit.supply_circuit
    left = (1 - circuit.sag) * (1 - severity)
    return replace(installation, unit=replace(unit, supply_circuit=replace(circuit, sag=1 - left)))


FAULT = FaultKind(
    id="low_voltage",
    title="Low supply voltage",
    family="Electrical",
    why=(
        "Motors take the same work out of fewer volts with more amps and run hotter; "
        "strips give what the square of the voltage leaves them."
    ),
    apply=apply,
    measure="share of the voltage missing",
    high=0.12,
    typical=0.08,
    modes=("cooling", "heating"),
    prior=0.15,
    hazards=("prove_meter",),
    evidence={
        "compressor_voltage": ("down", 0.3),
        "control_supply": ("down", 0.2),
        "voltage": ("down", 0.7),
        "leg_1_voltage": ("down", 0.3),
        "leg_2_voltage": ("down", 0.3),
        "outdoor_current": ("up", 0.4),
        "suction_pressure": ("flat", 0.1),
    },
    repairs=("restore_supply_voltage",),
)
