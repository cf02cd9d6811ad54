"""What a hint can be about: a reading, a preparation, or an act of the visit itself."""

from collections.abc import Mapping

from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.steps import STEPS

RUNGS = 4  # asks, points, tells a healthy value, works a step [-]
START, STATE, SECURE, REPAIR, RECORD = (
    *("start_system", "state_finding", "make_safe", "carry_out_repair", "write_up"),
)
ACTS: Mapping[str, str] = {
    START: "starting the system",
    STATE: "stating a finding",
    SECURE: "making it safe before a repair",
    REPAIR: "the repair that follows from the finding",
    RECORD: "the write-up",
}


def can_be_coached(about: str) -> bool:
    """Whether a hint can be about something.

    Parameters
    ----------
    about : str
        A code.

    Returns
    -------
    bool
    """
    return about in MEASUREMENTS or about in STEPS or about in ACTS


def name_of_target(about: str) -> str:
    """What a hint is about, inside a sentence.

    Parameters
    ----------
    about : str
        A code that can be coached.

    Returns
    -------
    str
    """
    if about in MEASUREMENTS:
        return MEASUREMENTS[about].said
    if about in STEPS:
        name = STEPS[about].name
        return name[:1].lower() + name[1:]
    return ACTS[about]
