"""Points for what was done: interview, safety, time, repair, the customer."""

from simulator.calls.events import Event, Measured, Prepared, Repaired
from simulator.calls.sealed import Hazard, Key
from simulator.calls.visit import Visit
from simulator.instruments.steps import STEPS
from simulator.instruments.validity import AIRFLOW_PROOF
from simulator.repairs._catalogue import discover
from simulator.scoring.part import Because, Part, part
from simulator.scoring.truth import shares

ASKED = {
    "ask_when": "when it started",
    "ask_changed": "what had changed",
    "ask_touched": "who had touched it last",
    "ask_rooms": "which rooms",
    "read_bill": "the bills",
    "read_history": "the job history",
}
REFRIGERANT = ("add_refrigerant", "weigh_in_charge", "recover_refrigerant")
COSTLY = ("replace_compressor", "replace_drier", "service_blower", "replace_sequencer")


def first_repair(visit: Visit) -> float:
    """When the first repair was finished.

    Parameters
    ----------
    visit : Visit
        As it stands.

    Returns
    -------
    float
        In minutes; endless without one.
    """
    return visit.repairs[0].minute if visit.repairs else float("inf")


def interview(visit: Visit, key: Key) -> Part:
    """What was asked before hands went on.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        Unused; all interviews are graded alike.

    Returns
    -------
    Part
        Of 8.
    """
    del key
    because, points = [], 0.0
    taken = {e.reading.measurement: e for e in reversed(visit.readings)}
    for measurement, words in ASKED.items():
        event = taken.get(measurement)
        if event is not None and event.minute <= first_repair(visit):
            points += 1.1
            because.append(Because(f"You asked or read {words}.", event.seq))
        else:
            because.append(Because(f"Left open: {words}."))
    if "consent" in visit.prepared:
        points += 1.4
        because.append(Because("You told the customer what you would do and where."))
    return part("Interview and complaint", points, 8.0, because)


def exposed_by(visit: Visit, hazard: Hazard) -> Event | None:
    """The first act that brought the technician near a hazard.

    Parameters
    ----------
    visit : Visit
        Closed.
    hazard : Hazard
        Which.

    Returns
    -------
    Event or None
    """
    for event in visit.events:
        if isinstance(event, Measured) and event.place in hazard.places:
            return event
        if isinstance(event, Repaired) and event.repair in hazard.repairs:
            return event
    return None


def met_at(visit: Visit, step: str) -> Prepared | None:
    """The preparation, if it was done.

    Parameters
    ----------
    visit : Visit
        Closed.
    step : str
        Which.

    Returns
    -------
    Prepared or None
    """
    return next((e for e in visit.events if isinstance(e, Prepared) and e.step == step), None)


def safety(visit: Visit, key: Key) -> Part:
    """Each hazard of this site met before the first exposure to it.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        Names the hazards.

    Returns
    -------
    Part
        Of the hazards' points together.
    """
    because, points = [], 0.0
    for hazard in key.hazards:
        exposed, met = exposed_by(visit, hazard), met_at(visit, hazard.step)
        in_time = met is not None and (exposed is None or met.seq < exposed.seq)
        if in_time or (exposed is None and not hazard.is_always_due):
            points += hazard.points
            if met is not None:
                because.append(Because(f"In time: {STEPS[hazard.step].name}.", met.seq))
        else:
            because.append(Because(f"Missed: {hazard.text}", exposed.seq if exposed else None))
    return part("Safety", points, sum(h.points for h in key.hazards), because)


def unsafe(visit: Visit, key: Key) -> list[tuple[str, int]]:
    """Repairs carried out beside a hazard that was never met.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        Names the hazards.

    Returns
    -------
    list
        A sentence and the event each.
    """
    found = []
    for hazard in key.hazards:
        met = met_at(visit, hazard.step)
        for event in visit.repairs:
            late = met is None or met.seq > event.seq
            if hazard.is_gate and late and event.repair in hazard.repairs:
                found.append((f"Unsafe, so the total is held at 40: {hazard.text}", event.seq))
                break
    return found


def efficiency(visit: Visit, key: Key) -> Part:
    """Site time without repairs, against what such a call usually takes.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        Gives the usual time.

    Returns
    -------
    Part
        Of 10.
    """
    spent = visit.minute - sum(event.minutes for event in visit.repairs)
    over = max(spent / key.usual_minutes - 1.0, 0.0)
    enough = min(len(visit.readings) / 8.0, 1.0)
    text = f"{spent:.0f} min of looking and measuring; such a call usually takes about "
    because = [Because(f"{text}{key.usual_minutes:.0f}.")]
    if enough < 1.0:
        because.append(Because("Little time, because little was looked at."))
    return part("Time", 10.0 * (1.0 - over) * enough, 10.0, because)


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


def harm(visit: Visit, key: Key) -> list[str]:
    """What was done to the customer's disadvantage.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        What was true.

    Returns
    -------
    list
        A sentence each.
    """
    found = []
    for event in visit.repairs:
        if event.repair in wanted(key):
            continue
        title = discover()[event.repair].title
        if event.repair in REFRIGERANT:
            proven = any(
                e.reading.measurement in AIRFLOW_PROOF and e.seq < event.seq for e in visit.readings
            )
            before = "" if proven else ", before the air was proven"
            found.append(
                f"{title} at minute {event.minute:.0f}{before}: the circuit had nothing to mend, "
                "and what was done to the charge stays done."
            )
        elif event.repair in COSTLY:
            found.append(f"{title} at minute {event.minute:.0f}: paid for, and nothing mended.")
    return found


def repairing(visit: Visit, key: Key) -> Part:
    """The cause mended, nothing harmed.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        What mends what.

    Returns
    -------
    Part
        Of 8.
    """
    because, points = [], 0.0
    done = {event.repair: event for event in visit.repairs}
    if not key.causes:
        points = 8.0
        because.append(Because("Nothing here needed mending."))
    for cause, share in shares(key).items() if key.causes else ():
        act = next((done[a] for a in key.repairs[cause] if a in done), None)
        if act is not None:
            points += 8.0 * share
            because.append(Because(f"Mended: {discover()[act.repair].title}.", act.seq))
        else:
            titles = " or ".join(discover()[a].title for a in key.repairs[cause])
            because.append(Because(f"Not mended; it takes: {titles}."))
    for sentence in harm(visit, key):
        points -= 6.0 if "charge" in sentence else 4.0
        because.append(Because(sentence))
    return part("Repair and no harm", points, 8.0, because)


def customer(visit: Visit, key: Key) -> Part:
    """The record that stays with the customer.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        Unused; all records are graded alike.

    Returns
    -------
    Part
        Of 5.
    """
    del key
    text = visit.write_up or ""
    if not text:
        return part("Customer and record", 0.0, 5.0, [Because("There is no write-up.")])
    because, points = [Because("A write-up was left.")], 2.0
    if len(text.split()) >= 25:
        points += 1.5
    else:
        because.append(Because("It is too short to say what, why, what was done and what next."))
    if sum(c.isdigit() for c in text) >= 2:
        points += 1.5
        because.append(Because("It gives readings, so the next technician can compare."))
    else:
        because.append(Because("It gives no reading: two numbers prove more than a paragraph."))
    return part("Customer and record", points, 5.0, because)
