"""The house asks for more than it did, or than was reckoned with.

References
----------
.. [1] First law; ACCA Manual J, load calculation; the range is common practice, no source.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    house, more = installation.house, 1 + severity
    heavier = replace(
        house,
        conductance=house.conductance * more,
        sun_area=house.sun_area * more,
        internal_gain=house.internal_gain * more,
    )
    return replace(installation, house=heavier)


FAULT = FaultKind(
    id="heavy_load",
    title="House load heavier than the equipment was chosen for",
    family="Ducts and house",
    why=(
        "Every reading of the equipment is as it should be. Sun, people, lost insulation "
        "or new rooms ask for more of it, so it runs longer and on the hottest days does "
        "not get there."
    ),
    apply=apply,
    measure="load of shell, sun and people added",
    high=0.5,
    typical=0.3,
    prior=0.8,
    evidence={
        "run_time": ("up", 0.5),
        "coil_airflow": ("flat", 0.2),
        "register_sum": ("flat", 0.2),
        "suction_pressure": ("flat", 0.1),
        "liquid_pressure": ("flat", 0.1),
    },
    repairs=("reduce_load",),
)
