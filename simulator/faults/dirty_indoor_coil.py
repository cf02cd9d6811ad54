"""Dust mats the inlet face of the indoor coil.

References
----------
.. [1] Siegel and Walker, deposition on evaporator coils, LBNL-49757, 2002 (from memory); the
   range is common practice, no source.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation

# Dirt sits on the face and costs air before it costs heat; common practice, no source. [-]
CONDUCTANCE_LOST = 1 / 12  # per clean coil's worth of dirt, a quarter at the worst


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    coil, left = unit.indoor_coil, 1 - CONDUCTANCE_LOST * severity
    dirty = replace(
        coil,
        wet_pressure_drop=coil.wet_pressure_drop * (1 + severity),
        air_conductance=coil.air_conductance * left,
        dry_conductance=coil.dry_conductance * left,
    )
    return replace(installation, unit=replace(unit, indoor_coil=dirty))


FAULT = FaultKind(
    id="dirty_indoor_coil",
    title="Dirty indoor coil",
    family="Indoor air",
    why=(
        "Dirt takes pressure and insulates at once: the drop across the coil stands out "
        "beside a clean filter, less air passes, and the coil runs colder for the same "
        "heat."
    ),
    apply=apply,
    measure="resistance added, in clean coils",
    kind="ratio",
    counted_in="clean coils",
    high=3.0,
    typical=1.5,
    modes=("cooling", "heating"),
    prior=0.6,
    hazards=("hazard_look_air_handler",),
    evidence={
        "look_indoor_coil": ("seen", 0.5),
        "static_after_coil": ("down", 0.4),
        "static_after_filter": ("up", 0.3),
        "coil_airflow": ("down", 0.3),
        "look_filter": ("beside", 0.2),
    },
    repairs=("clean_indoor_coil",),
)
