"""The motor has lost torque: weak capacitor, failing module, wrong tap.

References
----------
.. [1] Fan laws: at a fixed duct, airflow follows the root of the torque.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    blower = replace(unit.blower, torque_fraction=unit.blower.torque_fraction * (1 - severity))
    return replace(installation, unit=replace(unit, blower=blower))


FAULT = FaultKind(
    id="weak_blower",
    title="Weak indoor blower",
    family="Indoor air",
    why=(
        "Airflow is low and so is every static pressure: nothing blocks the air, there is just "
        "less push."
    ),
    apply=apply,
    measure="share of the motor's torque lost",
    high=0.75,
    typical=0.5,
    modes=("cooling", "heating"),
    prior=0.4,
    hazards=("prove_meter",),
    evidence={
        "listen_blower": ("seen", 0.4),
        "coil_airflow": ("down", 0.4),
        "static_after_filter": ("up", 0.2),
        "static_supply": ("down", 0.2),
        "static_after_coil": ("up", 0.2),
    },
    repairs=("service_blower",),
)
