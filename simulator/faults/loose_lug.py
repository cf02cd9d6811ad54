"""Pitted contacts or a loose lug stand in the way of the outdoor unit's current.

References
----------
.. [1] Ohm's law; drops of 3 to 12 % under load are common practice, no source.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    circuit = unit.supply_circuit
    worse = replace(circuit, contact_resistance=circuit.contact_resistance + severity)
    return replace(installation, unit=replace(unit, supply_circuit=worse))


FAULT = FaultKind(
    id="loose_lug",
    title="Loose lug or pitted contactor",
    family="Electrical",
    why=(
        "Volts are lost and heat is made where the current squeezes through: what reaches "
        "the compressor is low, it draws more for the same work, and the supply at the "
        "disconnect is as it should be."
    ),
    apply=apply,
    measure="resistance of contacts and lugs",
    kind="ratio",
    counted_in="ohm",
    high=2.4,
    typical=1.0,
    modes=("cooling", "heating"),
    prior=0.3,
    hazards=(
        "prove_meter",
        "hazard_look_outdoor",
    ),
    evidence={
        "contactor_drop": ("up", 0.7),
        "compressor_voltage": ("down", 0.4),
        "leg_1_voltage": ("down", 0.4),
        "leg_2_voltage": ("flat", 0.1),
        "look_wires": ("seen", 0.4),
        "outdoor_current": ("up", 0.4),
        "outdoor_power": ("up", 0.3),
        "voltage": ("flat", 0.4),
        "liquid_pressure": ("flat", 0.2),
    },
    repairs=("renew_terminations",),
)
