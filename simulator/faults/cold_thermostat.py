"""The thermostat reads colder than the rooms are.

References
----------
.. [1] Common practice, no source: a draught, an outer wall, or cold air in the hole behind it.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    controls = installation.controls
    colder = replace(controls, thermostat_offset=controls.thermostat_offset - severity)
    return replace(installation, controls=colder)


FAULT = FaultKind(
    id="cold_thermostat",
    title="Thermostat reads too cold",
    family="Ducts and house",
    why=(
        "Every part does its work; the thermostat ends the call for heat late and the call for "
        "cooling early, so the rooms are held warmer than it shows."
    ),
    apply=apply,
    measure="how much too cold it reads",
    kind="temperature_difference",
    high=6.0,
    typical=3.0,
    modes=("cooling", "heating"),
    prior=0.15,
    evidence={
        "room_temperature": ("up", 0.7),
        "look_thermostat": ("beside", 0.2),
        "coil_airflow": ("flat", 0.1),
        "suction_pressure": ("flat", 0.1),
    },
    repairs=("set_thermostat",),
)
