"""The refrigerant detector at the indoor coil holds the compressor off.

References
----------
.. [1] UL 60335-2-40: detection and ventilation for refrigerants that burn (from memory); common
   practice, no source.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    is_open = max(unit.leak_detector_open, float(severity > 0.0))
    return replace(installation, unit=replace(unit, leak_detector_open=is_open))


FAULT = FaultKind(
    id="tripped_leak_detector",
    title="Refrigerant detector tripped or failed",
    family="Refrigerant",
    why=(
        "The detector runs the blower and locks the compressor out, for a leak or for a "
        "sensor at the end of its life: everything else stands ready and waits."
    ),
    apply=apply,
    measure="whether it has tripped",
    high=1.0,
    typical=1.0,
    is_all_or_nothing=True,
    modes=("cooling", "heating"),
    prior=0.08,
    hazards=(
        "hazard_look_air_handler",
        "prove_meter",
    ),
    evidence={
        "look_board": ("seen", 0.7),
        "contactor_coil": ("down", 0.2),
        "outdoor_current": ("down", 0.5),
        "look_outdoor_coil": ("seen", 0.3),
        "coil_airflow": ("flat", 0.3),
    },
    repairs=("renew_leak_detector",),
)
