"""What was done to the customer's disadvantage."""

from simulator.calls.events import Repaired
from simulator.calls.sealed import Key
from simulator.calls.visit import Visit
from simulator.instruments.validity import airflow_known
from simulator.quantities.shown import show
from simulator.repairs._catalogue import discover

REFRIGERANT = ("add_refrigerant", "weigh_in_charge", "recover_refrigerant")
# What a needless repair throws away; the others cost their minutes alone.
PARTS = {
    "fit_slot_cover": "a cover",
    "insulate_ducts": "insulation",
    "renew_defrost_control": "a control and its sensor",
    "renew_leak_detector": "a sensor",
    "renew_terminations": "a contactor",
    "replace_capacitor": "a capacitor",
    "replace_check_valve": "a valve, a drier and a weighed charge",
    "replace_compressor": "a compressor and a weighed charge",
    "replace_drier": "a drier and a weighed charge",
    "replace_fan_motor": "a motor",
    "replace_filter": "a filter",
    "replace_metering_device": "a metering device, a drier and a weighed charge",
    "replace_outdoor_metering_device": "a metering device, a drier and a weighed charge",
    "replace_reversing_valve": "a reversing valve and a weighed charge",
    "replace_sequencer": "a sequencer",
    "replace_strip_element": "a strip element",
    "replace_suction_line": "a stretch of pipe and a weighed charge",
    "replace_zone_actuator": "an actuator",
    "restore_supply_voltage": "an electrician's visit",
    "seal_return": "mastic and gaskets",
    "seal_supply": "mastic",
    "shorten_line_set": "a new line set, pad and wiring",
    "weigh_in_charge": "a whole weighed charge",
}
CHEAP = 10.0  # a repair no longer than this costs few points, in minutes
LOST_REFRIGERANT, LOST_TIME, LOST_LITTLE = 6.0, 4.0, 1.0  # points; trade practice, own weights [-]


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
    return [
        (_said(event, visit), event) for event in visit.repairs if event.repair not in wanted(key)
    ]


def lost(event: Repaired, visit: Visit) -> float:
    """Points a needless repair costs.

    Parameters
    ----------
    event : Repaired
        The needless act.
    visit : Visit
        Closed.

    Returns
    -------
    float
        [-]
    """
    if event.repair in REFRIGERANT:
        # Taking out what had needlessly gone in is no second harm.
        return LOST_LITTLE if _undoes(event, visit) else LOST_REFRIGERANT
    return LOST_TIME if event.minutes > CHEAP else LOST_LITTLE


def _undoes(event: Repaired, visit: Visit) -> bool:
    """Whether refrigerant is taken out that was added on this visit."""
    added = any(e.repair == "add_refrigerant" and e.seq < event.seq for e in visit.repairs)
    return added and event.repair in ("recover_refrigerant", "weigh_in_charge")


def _said(event: Repaired, visit: Visit) -> str:
    title = discover()[event.repair].title
    cost = f"{event.minutes:.0f} min"
    if event.amount is not None:
        us, si = (show(event.amount, "small_mass", system) for system in ("us", "si"))
        cost = f"{event.minutes:.0f} min and {us} ({si}) of refrigerant moved"
    elif event.repair in PARTS:
        cost = f"{event.minutes:.0f} min and {PARTS[event.repair]}"
    if event.repair not in REFRIGERANT:
        return f"{title} at minute {event.minute:.0f}: nothing mended, paid for with {cost}."
    known = airflow_known([e.reading for e in visit.readings if e.seq < event.seq])
    before = "" if known is not None else ", before the air was proven"
    if _undoes(event, visit):
        return (
            f"{title} at minute {event.minute:.0f}: it answers what was added before; together "
            f"they mended nothing, and this act cost {cost}."
        )
    return (
        f"{title} at minute {event.minute:.0f}{before}: the circuit had nothing to mend, it cost "
        f"{cost}, and what was done to the charge stays done unless it is weighed in again."
    )
