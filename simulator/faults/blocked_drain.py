"""The condensate drain is blocked and its float switch has opened.

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
    is_open = max(unit.float_switch_open, float(severity > 0.0))
    return replace(installation, unit=replace(unit, float_switch_open=is_open))


FAULT = FaultKind(
    id="blocked_drain",
    title="Condensate drain blocked, float switch open",
    family="Indoor air",
    why=(
        "Water stands in the pan and the float holds the compressor off before it runs "
        "over: the blower blows room air, the outdoor unit is silent, and its parts are "
        "sound."
    ),
    apply=apply,
    measure="whether the float is up",
    high=1.0,
    typical=1.0,
    is_all_or_nothing=True,
    prior=0.7,
    hazards=(
        "hazard_look_air_handler",
        "prove_meter",
    ),
    evidence={
        "look_drain": ("seen", 0.7),
        "outdoor_current": ("down", 0.4),
        "look_outdoor_coil": ("seen", 0.3),
        "condensate": ("down", 0.4),
        "coil_airflow": ("flat", 0.2),
    },
    repairs=("clear_drain",),
)
