"""Elements of the electric strips, or their links, are open.

References
----------
.. [1] Resistance heating, P = V²/R.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    unit = installation.unit
    whole = unit.strips.working_share * (1 - severity)
    strips = replace(unit.strips, working_share=whole)
    return replace(installation, unit=replace(unit, strips=strips))


FAULT = FaultKind(
    id="open_strip_element",
    title="Open strip element or limit",
    family="Electrical",
    why=(
        "Part of the strips stays cold when called: amps are missing element by element, "
        "and on the coldest days the rooms fall behind. Summer knows nothing of it."
    ),
    apply=apply,
    measure="share of the elements open",
    high=1.0,
    typical=0.5,
    modes=("heating",),
    prior=0.2,
    hazards=(
        "prove_meter",
        "hazard_look_air_handler",
    ),
    evidence={
        "strip_element_2_current": ("down", 0.6),
        "strip_current": ("down", 0.6),
        "air_handler_current": ("down", 0.5),
        "air_handler_power": ("down", 0.5),
        "supply_dry_bulb": ("down", 0.3),
        "coil_airflow": ("flat", 0.1),
    },
    repairs=("replace_strip_element",),
)
