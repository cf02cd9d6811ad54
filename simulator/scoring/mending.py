"""Points for the repair: the cause mended on proof, nothing harmed."""

from simulator.calls.events import Repaired
from simulator.calls.sealed import Key
from simulator.calls.visit import Visit
from simulator.faults._catalogue import discover as faults
from simulator.instruments.validity import airflow_known
from simulator.repairs._catalogue import discover
from simulator.scoring.carried import needed_for
from simulator.scoring.grounds import Grounds
from simulator.scoring.harm import (
    CHEAP,
    LOST_LITTLE,
    LOST_REFRIGERANT,
    LOST_TIME,
    REFRIGERANT,
    harm,
    lost,
    wanted,
)
from simulator.scoring.part import Because, Part, open_part, part
from simulator.scoring.truth import shares

NAME, POINTS = "Repair and no harm", 8.0


def repairing(visit: Visit, key: Key, grounds: Grounds) -> Part:
    """The cause mended once the readings carried it, nothing harmed.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        What mends what.
    grounds : Grounds
        Open until it is worked out, where something was mended.

    Returns
    -------
    Part
        Of 8.
    """
    done = {event.repair: event for event in reversed(visit.repairs)}
    right = [event for event in done.values() if event.repair in wanted(key)]
    if right and not grounds.is_worked_out:
        return open_part(NAME, POINTS)
    because, points = [], 0.0
    if not key.causes:
        points = POINTS
        because.append(Because("Nothing here needed mending.", visit.events[-1].seq))
    for cause, share in shares(key).items() if key.causes else ():
        act = next((done[a] for a in key.repairs[cause] if a in done), None)
        if act is not None:
            points += POINTS * share
            because.append(Because(f"Mended: {discover()[act.repair].title}.", act.seq))
        else:
            titles = " or ".join(discover()[a].title for a in key.repairs[cause])
            because.append(Because(f"Not mended; it takes: {titles}.", visit.events[-1].seq))
    for event in right:
        cost, said = _too_early(event, visit, key, grounds)
        points -= cost
        because += [Because(said, event.seq)] if cost else []
    for sentence, event in harm(visit, key):
        points -= lost(event, visit)
        because.append(Because(sentence, event.seq))
    return part(NAME, points, POINTS, because)


def is_proven(event: Repaired, visit: Visit, key: Key, grounds: Grounds) -> bool:
    """Whether readings carried what a repair mends, by the finding or by the repair itself.

    Parameters
    ----------
    event : Repaired
        The act.
    visit : Visit
        Closed.
    key : Key
        What was true.
    grounds : Grounds
        Worked out.

    Returns
    -------
    bool
    """
    stated = visit.finding.seq if visit.finding else event.seq
    beliefs = [grounds.before(seq) for seq in {event.seq, min(stated, event.seq)}]
    mended = [cause for cause in key.causes if event.repair in faults()[cause].repairs]
    return any(
        belief.odds_of_one(cause) >= needed_for(frozenset({cause}))
        for cause in mended
        for belief in beliefs
    )


def _too_early(event: Repaired, visit: Visit, key: Key, grounds: Grounds) -> tuple[float, str]:
    """Points that a right repair costs, and why."""
    title = discover()[event.repair].title
    known = airflow_known([e.reading for e in visit.readings if e.seq < event.seq])
    if event.repair in REFRIGERANT and known is None:
        return LOST_REFRIGERANT, (
            f"{title} at minute {event.minute:.0f}, before the air was proven: no charge can be "
            "judged by then."
        )
    if is_proven(event, visit, key, grounds):
        return 0.0, ""
    cost = LOST_TIME if event.minutes > CHEAP else LOST_LITTLE
    return cost, f"{title} at minute {event.minute:.0f}: right, but before the readings carried it."
