"""What was done to the customer's disadvantage."""

from simulator.calls.events import Repaired
from simulator.calls.sealed import Key
from simulator.calls.visit import Visit
from simulator.instruments.validity import airflow_known
from simulator.repairs._catalogue import discover

REFRIGERANT = ("add_refrigerant", "weigh_in_charge", "recover_refrigerant")
COSTLY = ("replace_compressor", "replace_drier", "service_blower", "replace_sequencer")


def wanted(key: Key) -> set[str]:
    """Repairs that mend something here.

    Parameters
    ----------
    key : Key
        What was true.

    Returns
    -------
    set
        Codes.
    """
    return {act for acts in key.repairs.values() for act in acts}


def harm(visit: Visit, key: Key) -> list[tuple[str, Repaired]]:
    """What was done to the customer's disadvantage, and by which repair.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        What was true.

    Returns
    -------
    list
        A sentence and its event each.
    """
    found = []
    for event in visit.repairs:
        if event.repair in wanted(key):
            continue
        title = discover()[event.repair].title
        if event.repair in REFRIGERANT:
            before_it = [e.reading for e in visit.readings if e.seq < event.seq]
            before = "" if airflow_known(before_it) is not None else ", before the air was proven"
            said = (
                f"{title} at minute {event.minute:.0f}{before}: the circuit had nothing to mend, "
                "and what was done to the charge stays done."
            )
            found.append((said, event))
        elif event.repair in COSTLY:
            said = f"{title} at minute {event.minute:.0f}: paid for, and nothing mended."
            found.append((said, event))
    return found
