"""A fixed orifice too small for the unit.

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
    metering = replace(unit.metering, open_area=unit.metering.open_area * (1 - severity))
    return replace(installation, unit=replace(unit, metering=metering))


FAULT = FaultKind(
    id="undersized_orifice",
    title="Orifice too small",
    family="Refrigerant",
    why=(
        "Too small a piston: the coil starves and its gas comes out hot, while the liquid it "
        "refuses waits in the outdoor coil."
    ),
    apply=apply,
    measure="share of the right flow area missing",
    high=0.3,
    typical=0.15,
    metering=("orifice",),
    prior=0.07,
    hazards=("hazard_look_outdoor",),
    evidence={
        "suction_pressure": ("down", 0.25),
        "suction_line_temperature": ("up", 0.3),
        "liquid_line_temperature": ("down", 0.25),
        "liquid_pressure": ("beside", 0.2),
        "coil_airflow": ("flat", 0.3),
    },
    repairs=("replace_metering_device",),
)
