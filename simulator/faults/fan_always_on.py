"""The blower runs between calls for cooling.

References
----------
.. [1] Henderson and Rengarajan, ASHRAE Transactions 102(1), 1996: moisture carried back off
   the coil (from memory).
.. [2] Common practice, no source: 3 to 8 points of humidity.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    controls = installation.controls
    still = (1 - controls.fan_always_on) * (1 - severity)
    return replace(installation, controls=replace(controls, fan_always_on=1 - still))


FAULT = FaultKind(
    id="fan_always_on",
    title="Fan set to run between calls",
    family="Indoor air",
    why=(
        "Between calls warm room air dries the wet coil, and what the call had taken out goes "
        "back into the rooms; the blower runs up the bill day and night."
    ),
    apply=apply,
    measure="share of the time between calls that the blower runs",
    high=1.0,
    typical=1.0,
    is_all_or_nothing=True,
    prior=0.5,
    evidence={
        "room_humidity": ("up", 0.7),
        "look_thermostat": ("beside", 0.3),
    },
    repairs=("set_thermostat",),
)
