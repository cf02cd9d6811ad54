"""A thermostatic valve that no longer opens far: lost bulb charge or a plugged screen.

References
----------
.. [1] Steady mass flow through a valve goes with its area: Kim and O'Neal, ASHRAE
   Transactions 100(1), 1994; the range is common practice, no source.
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
    id="starving_valve",
    title="Expansion valve starving the coil",
    family="Refrigerant",
    why=(
        "The valve stands as far open as it can and still feeds too little: the coil runs dry "
        "and cold, and the liquid it refuses waits in the outdoor coil."
    ),
    apply=apply,
    measure="share of the widest opening lost",
    high=0.7,
    typical=0.5,
    metering=("txv",),
    prior=0.15,
    hazards=("hazard_look_outdoor",),
    evidence={
        "suction_pressure": ("down", 0.25),
        "suction_line_temperature": ("up", 0.3),
        "liquid_line_temperature": ("down", 0.25),
        "liquid_after_drier_temperature": ("beside", 0.3),
        "coil_airflow": ("flat", 0.3),
    },
    repairs=("replace_metering_device",),
)
