"""The outdoor coil is never defrosted, and ice stands on it.

References
----------
.. [1] O'Neal and Tree, ASHRAE Transactions 91(2A), 1985: frost between fins (from memory).
.. [2] Common practice, no source: what a sensor off its tube or a dead board leads to.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit, controls = installation.unit, installation.controls
    coil = unit.outdoor_coil
    if severity == 0.0:
        return installation
    free = (1 - coil.frost / coil.frost_capacity) * (1 - severity)
    iced = replace(coil, frost=(1 - free) * coil.frost_capacity)
    dead = replace(controls, defrost_enabled=0.0)
    return replace(installation, unit=replace(unit, outdoor_coil=iced), controls=dead)


FAULT = FaultKind(
    id="no_defrost",
    title="No defrost: outdoor coil iced over",
    family="Outdoor air",
    why=(
        "The sensor has come off its tube or the board no longer answers: frost stays, takes the "
        "coil's air, and the colder coil frosts the faster, until strips carry the house."
    ),
    apply=apply,
    measure="share of the coil closed by ice at the visit",
    high=0.75,
    typical=0.5,
    modes=("heating",),
    prior=0.25,
    hazards=("hazard_look_outdoor", "prove_meter"),
    evidence={
        "look_frost": ("seen", 0.4),
        "test_defrost": ("seen", 0.5),
        "suction_pressure": ("down", 0.3),
        "outdoor_temperature": ("beside", 0.1),
    },
    repairs=("renew_defrost_control",),
)
