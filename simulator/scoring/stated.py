"""The finding whole: which causes, how large, and what was cleared beside them."""

from simulator.calls.choice import NO_FAULT
from simulator.calls.events import Declared, Marked
from simulator.calls.sealed import Key
from simulator.calls.visit import Visit
from simulator.diagnosis.causes import name_of
from simulator.diagnosis.cleared import ASKED_FOR, OPEN, cleared, is_cleared
from simulator.faults._base import Fault
from simulator.faults._sizes import is_sized, nearness, share_of, size_at
from simulator.scoring.carried import LUCK, Carried
from simulator.scoring.finding import FINDING, diagnosis, each
from simulator.scoring.grounds import Grounds
from simulator.scoring.part import Because, Part, part
from simulator.scoring.truth import shares

CAUSES, SIZE, CLEARED = 12.0, 1.5, 1.5  # of the points for the diagnosis


def finding_whole(visit: Visit, key: Key, grounds: Grounds) -> Part:
    """Points for the diagnosis: its causes, their sizes, and what was ruled out.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        What was true.
    grounds : Grounds
        Open until it is worked out.

    Returns
    -------
    Part
        Of 15. What was cleared counts as far as the finding itself does: luck earns it little.
    """
    found = diagnosis(visit, key, grounds)
    if found.is_open or visit.finding is None:
        return found
    worth = found.points / found.of
    size, of_size = _sizes(visit.finding, key, each(visit, key, grounds))
    ruled, of_ruled = _ruled_out(visit, visit.finding, key, grounds)
    points = CAUSES * worth + SIZE * size + CLEARED * worth * ruled
    return part(found.name, points, FINDING, [*found.because, *of_size, *of_ruled])


def _sizes(finding: Declared, key: Key, carried: dict[str, Carried]) -> tuple[float, list[Because]]:
    """How near the stated sizes came, as a share, and why."""
    true = shares(key)
    faults = {fault.kind.id: fault for fault in key.faults}
    got, because = 0.0, []
    for cause, one in carried.items():
        weight = true[cause] * (1.0 if one.is_enough else LUCK)
        fault = faults.get(cause)
        if fault is None or not is_sized(fault.kind):
            got += weight  # nothing to be said of how large it is
            continue
        near = nearness(fault, finding.size_of(cause))
        got += weight * near
        because.append(Because(_of_size(fault, finding.size_of(cause), near), finding.seq))
    return got, because


def _of_size(fault: Fault, stated: str, near: float) -> str:
    name, true = name_of(fault.kind.id), size_at(share_of(fault))
    if not stated:
        return f"How large it was, was not stated; it was {true}: {name}."
    if near == 1.0:
        return f"Its size was stated right, {stated}: {name}."
    return f"Its size was stated wrong, {stated} where it was {true}: {name}."


def _ruled_out(
    visit: Visit, finding: Declared, key: Key, grounds: Grounds
) -> tuple[float, list[Because]]:
    """What was marked as ruled out when it was stated: a share, and why.

    Cleared ones count up to as many as are asked for; others dilute them, so that ruling out
    everything earns little; one that is true undoes them all.
    """
    first, now = grounds.beliefs[0], grounds.before(finding.seq)
    marks = {e.cause: e.mark for e in visit.events[: finding.seq] if isinstance(e, Marked)}
    marked = [c for c, mark in marks.items() if mark == "ruled_out" and c != NO_FAULT]
    true = [c for c in marked if c in shares(key)]
    right = [c for c in marked if c not in true and is_cleared(c, first, now)]
    others = [c for c in marked if c not in (*true, *right)]
    open_still = [c for c in others if -now.odds_of_one(c) < OPEN]
    missed = [c for c in cleared(first, now) if c not in (*shares(key), *marked)]
    done = {event.repair for event in visit.repairs if event.seq < finding.seq}
    # Mended by then, or stated after all, it was not denied.
    wrong = [c for c in true if c not in finding.causes and not done & {*key.repairs.get(c, ())}]
    said = [f"Ruled out, though it was true: {name_of(c)}." for c in wrong]
    if right:
        said.append(f"Ruled out, and cleared by your readings: {_names(right)}.")
    if open_still:
        said.append(f"Ruled out, though your readings left it open: {_names(open_still)}.")
    elif len(others) > len(right):
        said.append("Most of what was ruled out no reading of yours speaks against.")
    if len(right) < ASKED_FOR and missed:
        said.append(f"Cleared by your readings and not marked as ruled out: {_names(missed)}.")
    because = [Because(text, finding.seq) for text in said]
    to_be_had = min(ASKED_FOR, len(right) + len(missed))
    if wrong or not to_be_had:
        return float(not wrong and not others), because
    share = min(len(right), to_be_had) / to_be_had
    diluted = share * len(right) / max(len(right) + len(others), 1)
    return max(diluted - len(open_still) / ASKED_FOR, 0.0), because


def _names(causes: list[str]) -> str:
    return "; ".join(name_of(cause) for cause in causes[:ASKED_FOR])
