"""The defrost board starts defrosts that no frost asks for.

References
----------
.. [1] First law: each warms metal, and takes its heat from the rooms.
.. [2] Common practice, no source: every 20 to 30 minutes, where an hour would do.
.. [3] Zhu, Sun, Wang, Deng, Ge, Li, Applied Thermal Engineering, 2015, as the AixLib library tells
   it: only severe frosting, fog about freezing, asks for one each 30 minutes; a day with such a
   night runs up to half a percent less at 30 to 50 minutes, for the same energy within 0.3 %.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    controls = installation.controls
    sooner = replace(
        controls,
        defrost_interval=controls.defrost_interval * (1 - severity),
        defrost_demand=controls.defrost_demand * (1 - severity),
    )
    return replace(installation, controls=sooner)


FAULT = FaultKind(
    id="frequent_defrost",
    title="Defrost far too often",
    family="Outdoor air",
    why=(
        "Pins set for another climate, or a board that counts too fast, turn the unit round on a "
        "bare coil: cool drafts, and strips that temper what should not have been cooled."
    ),
    apply=apply,
    measure="share of the time between defrosts lost",
    high=0.8,
    typical=0.67,
    modes=("heating",),
    prior=0.1,
    hazards=("hazard_look_outdoor", "prove_meter"),
    evidence={
        "look_defrost_pins": ("seen", 0.7),
        "look_frost": ("beside", 0.2),
        "suction_pressure": ("flat", 0.2),
    },
    repairs=("renew_defrost_control",),
)
