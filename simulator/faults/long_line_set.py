"""Coils far apart: long, thinly insulated lines that climb, charged for their length.

References
----------
.. [1] Darcy and Weisbach: pressure drop in proportion to length. The range, the charge of
   0.6 oz per foot of 3/8 in liquid line and the climb are common practice, no source.
.. [2] Conduction through a cylinder: the further length gains what the first 25 ft gain,
   0.46 W/(m K); a 7/8 in pipe gains 0.36 under a quarter inch of foam, more where it is bare.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation

BUILT_LENGTH = 25.0  # what the equipment files hold [ft]
CLIMB = 0.3  # part of the further length that goes up [-]
FOOT = 0.3048  # [m]
LIQUID = 1060.0  # in a warm liquid line, 0.6 oz per foot of 3/8 in pipe [kg/m³]


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    lines, further = unit.lines, severity / BUILT_LENGTH
    longer = replace(
        lines,
        suction_volume=lines.suction_volume * (1 + further),
        suction_pressure_drop=lines.suction_pressure_drop * (1 + further),
        suction_conductance=lines.suction_conductance * (1 + further),
        liquid_volume=lines.liquid_volume * (1 + further),
        liquid_pressure_drop=lines.liquid_pressure_drop * (1 + further),
        lift=lines.lift + CLIMB * severity * FOOT,
    )
    added = further * lines.liquid_volume * LIQUID / unit.plate_charge
    return replace(installation, unit=replace(unit, lines=longer, charge=unit.charge * (1 + added)))


FAULT = FaultKind(
    id="long_line_set",
    title="Line set too long",
    family="Refrigerant",
    why=(
        "Gas loses pressure and gathers heat on a long way back, so the compressor takes in thin, "
        "warm gas; the coil itself is fed as it should be."
    ),
    apply=apply,
    measure="length beyond that of the plate",
    kind="ratio",
    counted_in="ft",
    high=125.0,
    typical=75.0,
    modes=("cooling", "heating"),
    prior=0.1,
    hazards=("hazard_look_outdoor",),
    evidence={
        "suction_line_temperature": ("up", 0.45),
        "suction_pressure": ("down", 0.35),
        "coil_airflow": ("flat", 0.3),
    },
    repairs=("shorten_line_set",),
)
