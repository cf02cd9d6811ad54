"""Charge tests that do not count, and what would have made them count on this unit."""

from simulator.calls.site import Site, acts_of
from simulator.calls.traces import GAS_LOST
from simulator.calls.visit import Visit
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.validity import AIRFLOW_PROOF, ENOUGH_AIR, HOOD, UNPROVEN
from simulator.quantities.shown import show
from simulator.repairs._catalogue import discover
from simulator.scoring.reasoning import invalid_charge_tests

NEAR_ENOUGH = 0.03  # of the charge: the scatter of installers and a scale; chosen [-]
STRIPS = "strip_rise_airflow"


def charge_tests(visit: Visit, site: Site, system: str) -> list[str]:
    """What the debrief says of them.

    Parameters
    ----------
    visit : Visit
        Closed.
    site : Site
        Gives the unit.
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    list
        A sentence each; one more where the air was what was missing.
    """
    said = invalid_charge_tests(visit)
    if any(UNPROVEN in line for line in said):
        said.append(would_have_proven(site, system))
    return said


def would_have_proven(site: Site, system: str) -> str:
    """The readings that prove the airflow of this unit.

    Parameters
    ----------
    site : Site
        Gives the unit.
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    str
        One or two sentences.
    """
    # Only a heating call can hold the strips on while the compressor stands.
    heated = site.call.mode == "heating"
    ways = [
        f"{MEASUREMENTS[name].said} ({MEASUREMENTS[name].minutes:g} min)"
        for name in AIRFLOW_PROOF
        if name != STRIPS or heated
    ]
    rated = float(site.healthy().unit.rated_airflow)
    hood = MEASUREMENTS[HOOD]
    return (
        f"What would have proven the air here: {', '.join(ways[:-1])} or {ways[-1]}; also "
        f"{hood.said} ({hood.minutes:g} min), if the sum alone reached "
        f"{show(rated * ENOUGH_AIR, 'airflow', system)}."
    )


def charge_left(visit: Visit, site: Site) -> list[str]:
    """How far the charge is off as left, where anything was done to it.

    Parameters
    ----------
    visit : Visit
        Closed.
    site : Site
        Computes it.

    Returns
    -------
    list
        One sentence; none where it was not touched or is right.
    """
    moved = any(discover()[event.repair].disturbs_charge for event in visit.repairs)
    if not moved and GAS_LOST not in visit.left:
        return []
    right = float(site.healthy().unit.charge)
    off = float(site.installation(acts_of(visit)).unit.charge) / right - 1.0
    if abs(off) < NEAR_ENOUGH:
        return []
    percent = f"{abs(100.0 * off):.0f}"
    if off > 0.0:
        return [
            f"As left, the circuit holds {percent} % more refrigerant than it should; "
            "so the next technician finds it."
        ]
    return [
        f"As left, the circuit holds {percent} % less refrigerant than it should; "
        "so the next technician finds it."
    ]
