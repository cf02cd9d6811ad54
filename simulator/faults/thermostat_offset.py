"""The thermostat reads warmer than the rooms are.

References
----------
.. [1] Common practice, no source: sun, a lamp, a supply register or a hole behind it.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    controls = installation.controls
    warmer = replace(controls, thermostat_offset=controls.thermostat_offset + severity)
    return replace(installation, controls=warmer)


FAULT = FaultKind(
    id="thermostat_offset",
    title="Thermostat reads too warm",
    family="Ducts and house",
    why=(
        "Every part does its work; the thermostat ends the call for heat early and the call for "
        "cooling late, so the rooms are held colder than it shows."
    ),
    apply=apply,
    measure="how much too warm it reads",
    kind="temperature_difference",
    high=6.0,
    typical=3.0,
    modes=("cooling", "heating"),
    prior=0.15,
    evidence={
        "room_temperature": ("down", 0.7),
        "look_thermostat": ("beside", 0.2),
        "coil_airflow": ("flat", 0.1),
        "suction_pressure": ("flat", 0.1),
    },
    repairs=("set_thermostat",),
)
