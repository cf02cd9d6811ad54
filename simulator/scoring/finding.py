"""Points for the finding: what the readings carried when it was stated, crossed with the truth."""

from dataclasses import replace

from simulator.calls.choice import NO_FAULT
from simulator.calls.sealed import Key
from simulator.calls.visit import Visit
from simulator.diagnosis.causes import name_of
from simulator.diagnosis.evidence import support
from simulator.faults._catalogue import discover
from simulator.scoring import finding_words
from simulator.scoring.carried import (
    LUCK,
    Carried,
    alone,
    needed_for,
    odds_of,
    still_wrong,
)
from simulator.scoring.grounds import Grounds
from simulator.scoring.part import Because, Part, open_part, part
from simulator.scoring.reasoning import cited, worth
from simulator.scoring.truth import shares

EVIDENCE, FINDING = 20.0, 15.0
UNREAD = 0.4  # of the evidence, where it was gathered and not read [-]
UNLUCKY = 0.65  # what a wrong answer keeps that the readings did carry [-]
SHOWN = 0.5  # support by the cited readings below which a cause was not shown [-]
FALSE = 4.0  # points for each cause that is not so


def _moment(visit: Visit, cause: str) -> int:
    """The event before which a cause had to be known: its repair, where that came first.

    A finding is about the unit as found, so that nothing was wrong had to be known before any.
    """
    stated = visit.finding.seq if visit.finding else visit.next_seq
    done = [event for event in visit.repairs if event.seq < stated]
    if cause != NO_FAULT:
        done = [event for event in done if event.repair in discover()[cause].repairs]
    return done[0].seq if done else stated


def _is_shown(visit: Visit, cause: str) -> bool:
    """Whether what is cited bears on a cause and had been taken before it was mended."""
    moment = _moment(visit, cause)
    taken = {event.reading.measurement for event in visit.readings if event.seq < moment}
    seen = {name: share for name, share in worth(visit).items() if name in taken}
    return support(cause, seen) >= SHOWN


def whole(visit: Visit, grounds: Grounds) -> Carried:
    """How well the finding as a whole was carried when it was stated.

    Parameters
    ----------
    visit : Visit
        Closed, with a finding.
    grounds : Grounds
        Worked out.

    Returns
    -------
    Carried
    """
    assert visit.finding is not None  # noqa: S101 - asked only of visits with one
    found, stated = frozenset(visit.finding.causes), visit.finding.seq
    moments = {cause: _moment(visit, cause) for cause in found}
    needed, is_shown = needed_for(found), all(_is_shown(visit, cause) for cause in found)
    first, now = grounds.before(min(moments.values())), grounds.before(stated)
    at_once = Carried(odds_of(found, first), needed, is_shown, *alone(found, first))
    mended = [
        grounds.before(moment).odds_of_one(cause)
        for cause, moment in moments.items()
        if moment < stated
    ]
    if not mended:
        return at_once
    left = frozenset(cause for cause, moment in moments.items() if moment == stated)
    beside = alone(left, now) if left else still_wrong(now)
    odds = min(*mended, odds_of(left, now)) if left else min(mended)
    in_turn = Carried(odds, needed, is_shown, *beside)
    return max(at_once, in_turn, key=lambda one: (one.share, one.odds))


def each(visit: Visit, key: Key, grounds: Grounds) -> dict[str, Carried]:
    """How well each true cause that was stated was carried.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        What was true.
    grounds : Grounds
        Worked out.

    Returns
    -------
    dict
        By cause; those not stated are left out.
    """
    if visit.finding is None:
        return {}
    true, found = frozenset(shares(key)), frozenset(visit.finding.causes)
    all_of_it, told = whole(visit, grounds), {}
    for cause in sorted(true & found):
        odds = grounds.before(_moment(visit, cause)).odds_of_one(cause)
        one = Carried(odds, needed_for(frozenset({cause})), _is_shown(visit, cause))
        # What is exactly right, or stated alone, is judged as one set; of two, one may be carried
        # by itself.
        is_whole = found == true or len(found) == 1
        if is_whole and (len(true) == 1 or all_of_it.share >= one.share):
            one = replace(all_of_it, is_shown=one.is_shown)
        told[cause] = one
    return told


def is_unlucky(visit: Visit, key: Key, grounds: Grounds) -> bool:
    """Whether a finding is wrong though the readings spoke for exactly that.

    Parameters
    ----------
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
    if visit.finding is None or frozenset(visit.finding.causes) == frozenset(shares(key)):
        return False
    found = frozenset(visit.finding.causes)
    # Half of what was true is no ill luck, however surely that half was there; nor is what was
    # mended first and looked into afterwards.
    exact = grounds.before(min(_moment(visit, cause) for cause in found)).odds(found)
    return whole(visit, grounds).is_shown and exact >= needed_for(found)


def evidence(visit: Visit, key: Key, grounds: Grounds) -> Part:
    """Whether the readings carried what was stated, crossed with whether it is true.

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
        Of 20.
    """
    if not grounds.is_worked_out:
        return open_part("Evidence", EVIDENCE)
    finding = visit.finding
    if finding is None:
        said = Because("No finding was stated.", visit.events[-1].seq)
        return part("Evidence", 0.0, EVIDENCE, [said])
    carried, because, points = each(visit, key, grounds), [], 0.0
    if not cited(visit):
        guess = "A guess: the finding was stated without a single reading."
        because.append(Because(guess, finding.seq))
    unread = 0.0
    for cause, share in shares(key).items():
        one = carried.get(cause)
        points += EVIDENCE * share * (one.share if one else 0.0)
        belief = grounds.before(_moment(visit, cause))
        stood_there = belief.odds_of_one(cause) >= needed_for(frozenset({cause}))
        if one is None and stood_there:
            unread += EVIDENCE * share * UNREAD
        if one is None or one.is_enough:
            words = finding_words.said(cause, one, stood_there=stood_there)
        else:
            is_late = _moment(visit, cause) < finding.seq
            words = finding_words.not_enough(cause, one, belief, is_late=is_late)
        because.append(Because(words, finding.seq))
        if one and one.is_enough and one.is_left_open:
            because.append(Because(finding_words.left_open(one), finding.seq))
    wrong = [cause for cause in finding.causes if cause not in shares(key)]
    if wrong and points:
        # Naming everything singles out nothing: evidence is for the true set over its rivals.
        points *= 1.0 - len(wrong) / len(finding.causes)
        text = "Causes were named beside it that the readings do not single out."
        because.append(Because(text, finding.seq))
    points += unread
    if is_unlucky(visit, key, grounds):
        points = max(points, UNLUCKY * EVIDENCE)
        because.append(Because(finding_words.unlucky(finding.causes, shares(key)), finding.seq))
    return part("Evidence", points, EVIDENCE, because)


def diagnosis(visit: Visit, key: Key, grounds: Grounds) -> Part:
    """The right causes and no others; luck earns little.

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
        Of 15.
    """
    if not grounds.is_worked_out:
        return open_part("Diagnosis", FINDING)
    because, points = [], 0.0
    found = visit.finding.causes if visit.finding else ()
    seq = visit.finding.seq if visit.finding else visit.events[-1].seq
    carried = each(visit, key, grounds)
    for cause, share in shares(key).items():
        one = carried.get(cause)
        if one is None:
            because.append(Because(f"Not found: {name_of(cause)}.", seq))
            continue
        points += FINDING * share * (1.0 if one.is_enough else LUCK)
        name = name_of(cause)
        lucky = f"Found: {name}, though too little was there to know it by."
        because.append(Because(f"Found: {name}." if one.is_enough else lucky, seq))
    for cause in found:
        if cause not in shares(key):
            points -= FALSE
            because.append(Because(f"Not so: {name_of(cause)}.", seq))
    if is_unlucky(visit, key, grounds):
        points = max(points, UNLUCKY * FINDING)
    return part("Diagnosis", points, FINDING, because)
