"""A jumper or a wrong wire brings strips on with every call for heat.

References
----------
.. [1] Resistance heating, P = V²/R.
.. [2] Common practice, no source: strips are the second stage, held off in mild weather.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    controls = installation.controls
    left = (1 - controls.strips_with_every_call) * (1 - severity)
    return replace(installation, controls=replace(controls, strips_with_every_call=1 - left))


FAULT = FaultKind(
    id="misplaced_staging",
    title="Strips come on with every call for heat",
    family="Electrical",
    why=(
        "A jumper makes the second stage part of the first: strips end each call before the "
        "compressor has done its share, in weather where it would have been enough alone."
    ),
    apply=apply,
    measure="share of the strips that come with every call",
    high=1.0,
    typical=0.75,
    modes=("heating",),
    prior=0.3,
    hazards=("prove_meter",),
    evidence={
        "look_control_wires": ("seen", 0.6),
        "auxiliary_call": ("up", 0.3),
        "strip_current": ("up", 0.4),
        "air_handler_power": ("up", 0.4),
        "outdoor_temperature": ("beside", 0.2),
        "read_bill": ("beside", 0.1),
    },
    repairs=("correct_staging",),
)
