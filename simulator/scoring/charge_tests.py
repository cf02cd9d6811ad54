"""Charge tests that do not count, and what would have made them count on this unit."""

from simulator.calls.site import Site
from simulator.calls.visit import Visit
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.validity import AIRFLOW_PROOF, ENOUGH_AIR, HOOD, UNPROVEN
from simulator.quantities.shown import show
from simulator.scoring.reasoning import invalid_charge_tests

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
        f"{MEASUREMENTS[name].name[:1].lower()}{MEASUREMENTS[name].name[1:]} "
        f"({MEASUREMENTS[name].minutes:g} min)"
        for name in AIRFLOW_PROOF
        if name != STRIPS or heated
    ]
    rated = float(site.healthy().unit.rated_airflow)
    hood = MEASUREMENTS[HOOD]
    return (
        f"What would have proven the air here: {', '.join(ways[:-1])} or {ways[-1]}; also "
        f"{hood.name[:1].lower()}{hood.name[1:]} ({hood.minutes:g} min), if the sum alone reached "
        f"{show(rated * ENOUGH_AIR, 'airflow', system)}."
    )
