"""One room's run has come off and blows into the space around the ducts.

References
----------
.. [1] Mass balance; ANSI/ASHRAE 152: supply leakage as a share of fan flow.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    if severity == 0.0:
        return installation
    ducts = installation.ducts
    place = (len(ducts.room_shares) - 1) // 2
    off = ducts.room_shares[place]
    shares = tuple(0.0 if at == place else share for at, share in enumerate(ducts.room_shares))
    # The open end still passes what the room got, at the same plenum pressure.
    kept = (1 - ducts.supply_leak) * (1 - off)
    return replace(installation, ducts=replace(ducts, room_shares=shares, supply_leak=1 - kept))


FAULT = FaultKind(
    id="disconnected_run",
    title="Supply run disconnected",
    family="Ducts and house",
    why=(
        "One room gets nothing and the space around the ducts gets it all; the coil and "
        "every static pressure know nothing of it, the sum of the registers does."
    ),
    apply=apply,
    measure="whether it is off",
    high=1.0,
    typical=1.0,
    is_all_or_nothing=True,
    modes=("cooling", "heating"),
    prior=0.2,
    hazards=("hazard_look_zone",),
    evidence={
        "register_sum": ("down", 0.5),
        "smoke_supply": ("seen", 0.4),
        "look_ducts": ("seen", 0.4),
        "house_pressure": ("down", 0.4),
        "coil_airflow": ("flat", 0.2),
    },
    repairs=(
        "reconnect_run",
        "seal_supply",
    ),
)
