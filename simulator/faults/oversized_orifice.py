"""A fixed orifice too large for the unit.

References
----------
.. [1] Flow through a short tube goes with its area: Kim and O'Neal, ASHRAE Transactions
   100(1), 1994; the range is common practice, no source.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    metering = replace(unit.metering, open_area=unit.metering.open_area * (1 + severity))
    return replace(installation, unit=replace(unit, metering=metering))


FAULT = FaultKind(
    id="oversized_orifice",
    title="Orifice too large or off its seat",
    family="Refrigerant",
    why=(
        "Too large a piston, or one off its seat: the coil is flooded, little superheat is left "
        "and the outdoor coil is drained of its liquid."
    ),
    apply=apply,
    measure="share of the right flow area in excess",
    high=0.4,
    typical=0.25,
    metering=("orifice",),
    prior=0.07,
    hazards=("hazard_look_outdoor",),
    evidence={
        "suction_pressure": ("up", 0.25),
        "suction_line_temperature": ("down", 0.3),
        "liquid_line_temperature": ("up", 0.25),
        "liquid_pressure": ("beside", 0.2),
        "coil_airflow": ("flat", 0.3),
    },
    repairs=("replace_metering_device",),
)
