"""Sentences beside the readings: what must be known to read them rightly."""

from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.serve.stand.fault_fit import said_of
from simulator.serve.stand.gauges import beyond_said, gauges_said, limit_said, switch_said
from simulator.serve.stand.setting import Setting

NOT_FOUND = (
    "No settled state of the circuit was found for this weather and these faults; the readings "
    "are those of a unit at rest with the blower running: make a fault smaller or the weather "
    "milder."
)


def beside(
    setting: Setting, built: Installation, now: OperatingPoint, system: str = "us"
) -> list[str]:
    """All that is said beside the readings of a setting.

    Parameters
    ----------
    setting : Setting
        Checked.
    built : Installation
        As it stands.
    now : OperatingPoint
        Floats, its settled state.
    system : str
        ``us`` or ``si``: in whose units the sentences speak.

    Returns
    -------
    list
        A sentence each.
    """
    return [
        *said_of(built, setting.faults),
        *gauges_said(setting.gauges, built.unit.refrigerant),
        *switch_said(built, now.state, system),
        *beyond_said(now, setting.gauges, system),
        *limit_said(now),
    ]


def unsolved_said(state: str) -> list[str]:
    """That no settled state was found, and what may be changed.

    Parameters
    ----------
    state : str
        Of the operating point.

    Returns
    -------
    list
        One sentence, or none.
    """
    return [NOT_FOUND] if state == "no_solution" else []
