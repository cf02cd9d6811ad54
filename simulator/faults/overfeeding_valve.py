"""A thermostatic valve whose bulb is loose or bare and reads warm.

References
----------
.. [1] ASHRAE Handbook, Refrigeration, Refrigerant-Control Devices: bulb location and
   insulation; the range is common practice, no source.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    metering = replace(unit.metering, bulb_offset=unit.metering.bulb_offset + severity)
    return replace(installation, unit=replace(unit, metering=metering))


FAULT = FaultKind(
    id="overfeeding_valve",
    title="Expansion valve overfeeding, bulb loose or bare",
    family="Refrigerant",
    why=(
        "The bulb feels the air around it as well as the pipe, takes the gas for drier than it "
        "is, and the valve opens until liquid reaches the suction line."
    ),
    apply=apply,
    measure="bulb warmer than its pipe",
    kind="temperature_difference",
    high=15.0,
    typical=8.0,
    metering=("txv",),
    prior=0.15,
    hazards=("hazard_look_outdoor",),
    evidence={
        "suction_line_temperature": ("down", 0.4),
        "suction_pressure": ("beside", 0.2),
        "discharge_temperature": ("down", 0.2),
        "coil_airflow": ("flat", 0.3),
    },
    repairs=("strap_bulb",),
)
