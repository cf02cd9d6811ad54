"""The debrief: a story from top to bottom, its numbers computed by the plant."""

from typing import Any

from simulator.calls.events import Event, Marked, Measured
from simulator.calls.sealed import Key
from simulator.calls.sheet import steadiness
from simulator.calls.site import Site, acts_of
from simulator.calls.visit import Visit
from simulator.diagnosis.causes import name_of
from simulator.scoring import reasoning
from simulator.scoring.bearing import bearing
from simulator.scoring.charge_tests import charge_left, charge_tests
from simulator.scoring.corrected import told_pairs
from simulator.scoring.grounds import weather
from simulator.scoring.harm import harm, wanted
from simulator.scoring.hints import taken
from simulator.scoring.most_direct import turning_point
from simulator.scoring.next_time import NEXT_TIME, OTHERWISE
from simulator.scoring.part import Because, Part
from simulator.scoring.safety import met_at
from simulator.scoring.scorecard import Scorecard, score
from simulator.scoring.self_explanation import question
from simulator.scoring.telling import sized, told
from simulator.scoring.three_states import before_after, bill
from simulator.scoring.truth import shares

LIMIT = "Limit"  # the part that holds an unsafe visit's total


def debrief(
    visit: Visit, site: Site, system: str, graded: Scorecard | None = None
) -> dict[str, Any]:
    """Everything the debrief tells.

    Parameters
    ----------
    visit : Visit
        Closed.
    site : Site
        With the key.
    system : str
        Units, ``us`` or ``si``.
    graded : Scorecard, optional
        As stored; without it, parts that need odds stay open.

    Returns
    -------
    dict
        Plain data, words before numbers.

    Raises
    ------
    ValueError
        If the visit is still open: the key stays sealed.
    """
    if not visit.is_closed:
        raise ValueError("a visit is debriefed after it is closed")
    key = site.key.opened()
    known = weather(visit, site)
    card = graded or score(visit.events, key, known)
    return {
        "to_explain": question(visit, site),
        "in_short": in_short(visit, key, card),
        "what_was_true": key.story,
        "what_you_found": what_you_found(visit),
        "turning_point": turning_point(visit, key.causes, wanted(key), site),
        "harm": [*card.harm, *charge_left(visit, site)],
        "invalid_charge_tests": charge_tests(visit, site, system),
        "hints": taken(visit),
        "timeline": _timeline(visit, site, system),
        "cited": bearing(visit),
        "pairs": told_pairs(visit, site, system, known),
        "before_after": before_after(site, acts_of(visit), system),
        "bill": bill(site, acts_of(visit), system),
        **points(card, visit),
    }


def in_short(visit: Visit, key: Key, card: Scorecard) -> list[dict[str, Any]]:
    """The three sentences that matter: what was found, what it cost, what to do next time.

    Parameters
    ----------
    visit : Visit
        Closed.
    key : Key
        What was true.
    card : Scorecard
        Of this visit.

    Returns
    -------
    list
        ``text`` of each and ``seq``, the event it is about; the third once all is worked out.
    """
    stated = visit.finding.seq if visit.finding else visit.events[-1].seq
    return [
        {"text": _found(visit, key), "seq": stated},
        _outcome(visit, key, card),
        *([_next_time(visit, card.parts)] if card.is_final else []),
    ]


def _found(visit: Visit, key: Key) -> str:
    true, said = tuple(shares(key)), visit.finding.causes if visit.finding else ()
    right, all_true = sum(cause in said for cause in true), len(true)
    names = "; ".join(name_of(cause) for cause in true)
    if right == all_true == len(said):
        return f"You found what was true: {names}."
    if not right:
        return f"You did not find what was true: {names}."
    if right == len(said):
        return f"You found {right} of {all_true}. True was: {names}."
    wrong = len(said) - right
    return f"You found {right} of {all_true}, and wrongly named {wrong} more. True was: {names}."


def _outcome(visit: Visit, key: Key, card: Scorecard) -> dict[str, Any]:
    """Danger before harm before what was mended."""
    limit = next((part for part in card.parts if part.name == LIMIT), None)
    if limit is not None:
        return {"text": limit.because[0].text, "seq": limit.because[0].seq}
    for text, event in harm(visit, key):
        return {"text": text, "seq": event.seq}
    done = [event for event in visit.repairs if event.repair in wanted(key)]
    left_open = [c for c, acts in key.repairs.items() if not any(e.repair in acts for e in done)]
    seq = done[-1].seq if done else visit.events[-1].seq
    if not key.causes:
        text = "Nothing needed mending, and no harm was done."
    elif not left_open:
        text = "All of it was mended, and no harm was done."
    else:
        names = "; ".join(name_of(cause) for cause in left_open)
        text = f"No harm was done, but this was left as it was: {names}."
    return {"text": text, "seq": seq}


def _next_time(visit: Visit, parts: tuple[Part, ...]) -> dict[str, Any]:
    """What to do otherwise at the next call, where most was lost at this one."""
    worst = max(parts, key=lambda part: part.of - part.points)
    if worst.of - worst.points < 0.1:
        return {"text": "No part lost a point.", "seq": visit.events[-1].seq}
    seq = behind(visit, worst.name, worst.because[-1])
    return {"text": NEXT_TIME.get(worst.name, OTHERWISE), "seq": seq}


def behind(visit: Visit, part: str, why: Because) -> int:
    """The event of the timeline behind a reason.

    Parameters
    ----------
    visit : Visit
        Closed.
    part : str
        Name of the part the reason stands in.
    why : Because
        The reason.

    Returns
    -------
    int
        Its own event, else the act the part judges, else the end of the visit.
    """
    if why.seq is not None:
        return why.seq
    stated = visit.finding.seq if visit.finding else visit.events[-1].seq
    if part == "Measuring":
        return _behind_measuring(visit, why.text)
    if part == "Re-test" and visit.repairs:
        # Matched by the name the reason gives: the newest such reading that had settled.
        again = [
            e for e in visit.readings if reasoning.name(e) in why.text and steadiness(e) == "steady"
        ]
        return again[-1].seq if again else visit.repairs[-1].seq
    # Evidence and diagnosis are judged where they were stated.
    return visit.events[-1].seq if part == "Re-test" else stated


def _behind_measuring(visit: Visit, text: str) -> int:
    compared = met_at(visit, "match_probes")
    if "probes" in text and compared is not None:
        return compared.seq
    named = [e for e in reasoning.cited(visit) if reasoning.name(e) in text]
    numbers = [e for e in visit.readings if e.reading.value is not None]
    if "probes" in text:
        numbers = numbers[:1]  # the first one a comparison would have helped
    return (named or numbers[-1:] or visit.events[-1:])[0].seq


def points(card: Scorecard, visit: Visit) -> dict[str, Any]:
    """The scorecard as plain data, every reason with its event.

    Parameters
    ----------
    card : Scorecard
    visit : Visit
        Closed.

    Returns
    -------
    dict
        ``parts``, ``total`` and ``of``; no total while a part is open.
    """
    return {
        "parts": [
            {
                "name": item.name,
                "points": item.points,
                "of": item.of,
                "is_open": item.is_open,
                "because": [
                    {"text": why.text, "seq": behind(visit, item.name, why)} for why in item.because
                ],
            }
            for item in card.parts
        ],
        "total": round(card.total) if card.is_final else None,
        "of": 100,
    }


def what_you_found(visit: Visit) -> str:
    """The finding in one sentence.

    Parameters
    ----------
    visit : Visit
        Closed.

    Returns
    -------
    str
    """
    if visit.finding is None:
        return "No finding was stated."
    names = "; ".join(sized(code, visit.finding) for code in visit.finding.causes)
    count = len(visit.finding.cited)
    rests = "no reading" if not count else "one reading" if count == 1 else f"{count} readings"
    return f"{names}. It rests on {rests}, stated at minute {visit.finding.minute:.0f}."


def _tells(event: Event) -> bool:
    return not isinstance(event, Marked)


def _timeline(visit: Visit, site: Site, system: str) -> list[dict[str, Any]]:
    return [_step(visit, event, site, system) for event in visit.events if _tells(event)]


def _step(visit: Visit, event: Event, site: Site, system: str) -> dict[str, Any]:
    note = None
    if isinstance(event, Measured):
        note = reasoning.weakness(visit, event) or (" ".join(event.problems) or None)
    said = {"text": told(event, site, system), "note": note}
    return {"seq": event.seq, "minute": event.minute, **said}
