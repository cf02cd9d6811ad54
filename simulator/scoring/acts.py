"""Points for what was done with people: the interview, the record."""

from simulator.calls.events import Measured, WrittenUp
from simulator.calls.sealed import Key
from simulator.calls.visit import Visit
from simulator.instruments.techniques import careful
from simulator.scoring.part import Because, Part, part
from simulator.scoring.promises import LOST, promised
from simulator.scoring.safety import met_at, missed_by

# In words, and its points; what had changed is worth most, trade practice, own weights [-].
ASKED = {
    "ask_when": ("when it started", 1.0),
    "ask_changed": ("what had changed", 3.0),
    "ask_touched": ("who had touched it last", 1.0),
    "ask_rooms": ("which rooms", 1.0),
    "read_bill": ("the bills", 0.5),
    "read_history": ("the job history", 0.5),
}
CONSENT = 1.0
CARE = careful("").id


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


def _led(event: Measured) -> tuple[bool, int]:
    """Led answers last, then by time."""
    return event.reading.technique != CARE, event.seq


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
    # Of several answers the first one that was not led counts.
    taken = {e.reading.measurement: e for e in sorted(visit.readings, key=_led, reverse=True)}
    for measurement, (words, worth) in ASKED.items():
        event = taken.get(measurement)
        if event is not None and event.minute <= first_repair(visit):
            if event.reading.technique != CARE:
                because.append(Because(f"You put the answer into their mouth: {words}.", event.seq))
                continue
            points += worth
            because.append(Because(f"You asked or read {words}.", event.seq))
        else:
            because.append(Because(f"Left open: {words}.", missed_by(visit)))
    consent = met_at(visit, "consent")
    if consent is None:
        left = "Left open: what you would do and where, told to the customer."
        because.append(Because(left, missed_by(visit)))
    else:
        points += CONSENT
        because.append(Because("You told the customer what you would do and where.", consent.seq))
    return part("Interview and complaint", points, 8.0, because)


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
    seq = max((e.seq for e in visit.events if isinstance(e, WrittenUp)), default=None)
    if not text:
        said = Because("There is no write-up.", visit.events[-1].seq)
        return part("Customer and record", 0.0, 5.0, [said])
    because, points = ["A write-up was left."], 2.0
    if len(text.split()) >= 25:
        points += 1.5
    else:
        because.append("It is too short to say what, why, what was done and what next.")
    if sum(c.isdigit() for c in text) >= 2:
        points += 1.5
        because.append("It gives readings, so the next technician can compare.")
    else:
        because.append("It gives no reading: two numbers prove more than a paragraph.")
    if (words := promised(text)) is not None:
        points -= LOST
        because.append(f'Nobody can keep that: "{words}". An honest range is worth more.')
    return part("Customer and record", points, 5.0, [Because(said, seq) for said in because])
