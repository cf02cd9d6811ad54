"""The reference as one would show it: power off, locked and proven before hands go in.

The simulated trainee of the same reasoning looks at a coil's face while the blower runs, as many
do; a path that is shown to learners does as the page says.
"""

from dataclasses import replace

import numpy as np

from simulator.calls import actions
from simulator.calls.call_file import CallFile
from simulator.calls.events import Stopped
from simulator.calls.visit import Visit
from simulator.diagnosis.trainees import reference
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.special_measurements import OFF

LOCK_OUT_AT = {"air_handler": "lock_out_air_handler", "outdoor_unit": "isolate_unit"}
MOST_STOPS = 4  # for looks before the finding; then as the trainee would go on [-]


def carefully(visit: Visit, call: CallFile, chance: np.random.Generator) -> actions.Action | None:
    """What the reference does next, made safe.

    Parameters
    ----------
    visit : Visit
        With all that was shown so far.
    call : CallFile
        The public part.
    chance : Generator
        Not asked.

    Returns
    -------
    Action or None
        None once the visit is closed.
    """
    action = reference(visit, call, chance)
    if visit.finding is not None or visit.is_closed:
        return action
    if visit.is_running:
        stops = sum(isinstance(event, Stopped) for event in visit.events)
        if _hands_in(action) is None or stops >= MOST_STOPS:
            return action
        return actions.StopSystem()
    # It would start the unit again for the very look that the unit was stopped for.
    wanted = reference(replace(visit, is_running=True), call, chance)
    for one in (action, wanted):
        lock_out = _hands_in(one)
        if lock_out is not None:
            return one if lock_out in visit.prepared else actions.Prepare(step=lock_out)
    return action


def _hands_in(action: actions.Action | None) -> str | None:
    """The lock-out that a look asks for, where it asks for one."""
    if not isinstance(action, actions.Measure):
        return None
    item = MEASUREMENTS[action.measurement]
    return LOCK_OUT_AT.get(item.place) if item.caution == OFF else None
