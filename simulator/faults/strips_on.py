"""A welded sequencer or a wrong wire keeps strips on.

References
----------
.. [1] Resistance heating, P = V²/R.
"""

from dataclasses import replace

import numpy as np

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    # Kits are fitted apart from the unit: where more stays on than its plate says, it is larger.
    stuck = np.maximum(unit.strips.energised_power, severity)
    strips = replace(unit.strips, energised_power=stuck)
    return replace(installation, unit=replace(unit, strips=strips))


FAULT = FaultKind(
    id="strips_on",
    title="Electric strips on without a call",
    family="Electrical",
    why=(
        "The strips sit behind the coil: the refrigerant side knows nothing of them while they "
        "heat the air that was just cooled, or just warmed enough, and the meter spins."
    ),
    apply=apply,
    measure="strip power on, at plate voltage",
    kind="electric_load",
    high=15.0,
    typical=9.6,
    modes=("cooling", "heating"),
    prior=0.1,
    hazards=("prove_meter",),
    evidence={
        "air_handler_current": ("up", 0.7),
        "strip_current": ("up", 0.7),
        "air_handler_power": ("up", 0.7),
        "supply_dry_bulb": ("up", 0.4),
        "return_dry_bulb": ("flat", 0.2),
        "near_register_temperature": ("up", 0.2),
        "read_bill": ("beside", 0.1),
    },
    repairs=("replace_sequencer",),
)
