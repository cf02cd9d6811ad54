"""A flattened or plugged suction line.

References
----------
.. [1] Square law of turbulent pressure drop; the range is common practice, no source.
.. [2] First law: a throttle keeps enthalpy. Saturated R-410A at 48 °F holds 0.2 Btu/lb more than
   at 44 °F (CoolProp), so 4 °F of boiling point lost leave 1 °F more superheat: a valve, which
   holds that of the coil, shows little of it, and a fixed orifice, whose coil floods, less than
   none.
.. [3] ASHRAE Handbook, Refrigeration, suction lines, from memory: about 2 % of capacity a degree
   Fahrenheit of boiling point lost in the line; the coil boils warmer and takes back half.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    held = unit.lines.suction_restriction + severity
    lines = replace(unit.lines, suction_restriction=held)
    return replace(installation, unit=replace(unit, lines=lines))


FAULT = FaultKind(
    id="suction_restriction",
    title="Restricted suction line",
    family="Refrigerant",
    why=(
        "Pressure is lost between coil and compressor: the gauge outdoors reads below the coil, "
        "the compressor takes in thin gas and moves less of it."
    ),
    apply=apply,
    measure="pressure lost in the suction line at rated flow",
    kind="pressure_difference",
    high=25.0,
    typical=10.0,
    prior=0.05,
    hazards=("hazard_look_outdoor",),
    evidence={
        "suction_pressure": ("down", 0.4),
        "suction_line_temperature": ("down", 0.3),
        "liquid_pressure": ("beside", 0.2),
        "coil_airflow": ("flat", 0.3),
    },
    repairs=("replace_suction_line",),
)
