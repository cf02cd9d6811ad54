"""The check valve beside the outdoor metering device does not close.

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
    device = unit.heating_metering
    metering = replace(device, bypass_area=device.bypass_area + severity * device.open_area)
    return replace(installation, unit=replace(unit, heating_metering=metering))


FAULT = FaultKind(
    id="stuck_check_valve",
    title="Check valve beside the outdoor metering device stuck open",
    family="Refrigerant",
    why=(
        "Cooling passes the check valve freely, as it should; heating passes it too, beside the "
        "metering device, and floods the outdoor coil."
    ),
    apply=apply,
    measure="area left open over that of the metering device",
    high=1.0,
    typical=0.5,
    modes=("heating",),
    prior=0.08,
    hazards=("hazard_look_outdoor",),
    evidence={
        "suction_line_temperature": ("down", 0.4),
        "discharge_temperature": ("down", 0.3),
        "suction_pressure": ("up", 0.2),
        "liquid_pressure": ("down", 0.2),
    },
    repairs=("replace_check_valve",),
)
