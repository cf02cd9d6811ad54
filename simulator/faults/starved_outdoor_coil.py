"""The outdoor metering device feeds too little while heating: partly plugged, or its bulb empty.

References
----------
.. [1] Flow through a valve or a short tube goes with its area: Kim and O'Neal, ASHRAE
   Transactions 100(1), 1994; the range is common practice, no source.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    device = unit.heating_metering
    metering = replace(device, clear_share=device.clear_share * (1 - severity))
    return replace(installation, unit=replace(unit, heating_metering=metering))


FAULT = FaultKind(
    id="starved_outdoor_coil",
    title="Outdoor metering device starving the coil in heating",
    family="Refrigerant",
    why=(
        "Cooling passes the check valve beside it and knows nothing of it; heating must go "
        "through what is left open: the outdoor coil runs dry and cold, and the liquid it is "
        "refused waits indoors."
    ),
    apply=apply,
    measure="share of the widest opening lost",
    high=0.7,
    typical=0.6,
    modes=("heating",),
    prior=0.08,
    hazards=("hazard_look_outdoor",),
    evidence={
        "suction_pressure": ("down", 0.3),
        "suction_line_temperature": ("up", 0.2),
        "discharge_temperature": ("up", 0.2),
        "liquid_line_temperature": ("down", 0.2),
        "liquid_after_drier_temperature": ("beside", 0.2),
        "coil_airflow": ("flat", 0.2),
    },
    repairs=("replace_outdoor_metering_device",),
)
