"""What a class did with a call, for the wall of the room: no names, no points, no ranks."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from simulator.calls.events import Declared, Event, Marked, Measured, Moved, Probed
from simulator.calls.site import Site
from simulator.calls.visit import Visit
from simulator.diagnosis.causes import name_of
from simulator.instruments.measurements import MEASUREMENTS
from simulator.scoring.best_question import told_most
from simulator.scoring.carried import SUSPICION
from simulator.scoring.telling import told
from simulator.scoring.truth import shares
from simulator.scoring.turning import bears_most

THREE = 3
ALIKE = 0.2  # ways less unlike than this are shown once [-]
LETTERS = "ABC"
FOR_ONE = (
    "That is the mean over those who asked it; for one of them another reading may have told more, "
    "as their own debriefs say."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """A measurement and what it was worth here.

    Parameters
    ----------
    name : str
        For people.
    minutes : float
        What it takes, in minutes.
    asked : int
        By how many visits before their first repair. [-]
    """

    name: str
    minutes: float
    asked: int


def chased(visits: Sequence[Visit], true: Mapping[str, float]) -> list[dict[str, Any]]:
    """Which causes were thought likely or stated, and by how many.

    Parameters
    ----------
    visits : sequence of Visit
        Closed.
    true : mapping
        Share of each true cause. [-]

    Returns
    -------
    list
        True ones and the most chased first.
    """
    counts: Counter[str] = Counter()
    stated: Counter[str] = Counter()
    for visit in visits:
        said = set(visit.finding.causes) if visit.finding else set()
        likely = {e.cause for e in visit.events if isinstance(e, Marked) and e.mark == "likely"}
        counts.update(said | likely)
        stated.update(said)
    listed = set(counts) | set(true)
    return [
        {
            "name": name_of(code),
            "is_true": code in true,
            "chased": counts[code],
            "stated": stated[code],
        }
        for code in sorted(listed, key=lambda code: (code not in true, -counts[code], code))
    ]


def best_question(visits: Sequence[Visit], true: Mapping[str, float]) -> Question | None:
    """Of all that anybody measured before a repair, what bears most directly on the truth.

    Parameters
    ----------
    visits : sequence of Visit
        Closed.
    true : mapping
        Share of each true cause. [-]

    Returns
    -------
    Question or None
        None where nothing that bears on it was measured.
    """
    asked: Counter[str] = Counter()
    for visit in visits:
        asked.update({event.reading.measurement for event in _before_repair(visit)})
    best = bears_most(set(asked), frozenset(true))
    if best is None:
        return None
    item = MEASUREMENTS[best]
    return Question(name=item.name, minutes=item.minutes, asked=asked[best])


def contrasting(visits: Sequence[Visit], most: int = THREE) -> list[Visit]:
    """Visits whose ways differ most; how well they ended plays no part.

    Parameters
    ----------
    visits : sequence of Visit
        Closed.
    most : int
        How many. [-]

    Returns
    -------
    list
        In the order in which they came.
    """
    if len(visits) <= 1:
        return list(visits)
    pairs = [
        (unlikeness(a, b), -i, -j)
        for i, a in enumerate(visits)
        for j, b in enumerate(visits)
        if i < j
    ]
    _, first, second = max(pairs)
    chosen = [-first, -second]

    def apart(i: int) -> float:
        return min(unlikeness(visits[i], visits[j]) for j in chosen)

    if unlikeness(visits[chosen[0]], visits[chosen[1]]) < ALIKE:
        return [visits[0]]
    while len(chosen) < most:
        left = [i for i in range(len(visits)) if i not in chosen and apart(i) >= ALIKE]
        if not left:
            break
        chosen.append(max(left, key=lambda i: (apart(i), -i)))
    return [visits[i] for i in sorted(chosen)]


def unlikeness(one: Visit, other: Visit) -> float:
    """How differently two visits went.

    Parameters
    ----------
    one, other : Visit
        Closed.

    Returns
    -------
    float
        From 0, the same first ten places and readings, to 1, none in common. [-]
    """
    a, b = _way(one), _way(other)
    together = set(a) | set(b)
    return 1.0 - len(set(a) & set(b)) / len(together) if together else 0.0


def _way(visit: Visit) -> list[tuple[int, str]]:
    """Order counts by thirds of ten: early, middle, late."""
    names = [event.reading.measurement for event in _before_repair(visit)][:10]
    acts = [event.repair for event in visit.repairs]
    return [(i // 4, name) for i, name in enumerate(names)] + [(9, act) for act in acts]


def _before_repair(visit: Visit) -> list[Measured]:
    first = visit.repairs[0].seq if visit.repairs else len(visit.events)
    return [event for event in visit.readings if event.seq < first]


def class_question(worked: Sequence[tuple[Visit, Site]], site: Site) -> dict[str, Any]:
    """The best question that was asked; where odds are worked out, the one that moved them most.

    Parameters
    ----------
    worked : sequence
        Closed visits, one a trainee, each with the site of its own version.
    site : Site
        Of the call, with the key.

    Returns
    -------
    dict
        ``name`` and ``said``; empty texts where nothing told anything. Takes seconds.
    """
    visits = [visit for visit, _ in worked]
    most = told_most(worked)
    if most is not None:
        item = MEASUREMENTS[most.measurement]
        asked = sum(
            any(e.reading.measurement == item.id for e in _before_repair(v)) for v in visits
        )
        counted = f"{item.minutes:g} min; asked by {asked} of {len(visits)}."
        for_one = f" {FOR_ONE}" if len(visits) > 1 else ""
        return {"name": item.name, "said": f"{counted} {_moved(most.gain)}{for_one}"}
    bears = best_question(visits, shares(site.key.opened()))
    if bears is None:
        return {"name": "", "said": "Nothing that was measured before a repair told of the cause."}
    counted = f"{bears.minutes:g} min; asked by {bears.asked} of {len(visits)}."
    said = "Of all that was measured before a repair it speaks most directly for what was true."
    return {"name": bears.name, "said": f"{counted} {said}"}


def _moved(gain: float) -> str:
    """What it did for those who asked, words first."""
    if gain >= SUSPICION:
        times = f"{10.0**gain:.0f}"
        return (
            "More than anything else that was asked it told what was true: it raised the odds of "
            f"that about {times} times."
        )
    return "It told more of what was true than anything else that was asked, though not much."


def class_debrief(
    visits: Sequence[Visit], site: Site, sites: Sequence[Site] = ()
) -> dict[str, Any]:
    """Everything the page tells.

    Parameters
    ----------
    visits : sequence of Visit
        Closed, one a trainee.
    site : Site
        With the key.
    sites : sequence of Site
        Each visit's own, where a class works versions of a call: they name its places.

    Returns
    -------
    dict
        Plain data without a name, a seat or a point.
    """
    key = site.key.opened()
    true = shares(key)
    own = {id(visit): at for visit, at in zip(visits, sites or [site] * len(visits), strict=True)}
    return {
        "story": key.story,
        "closed": len(visits),
        "chased": chased(visits, true),
        "ways": [
            {"letter": letter, "steps": _steps(visit, own[id(visit)])}
            for letter, visit in zip(LETTERS, contrasting(visits), strict=False)
        ],
    }


def _steps(visit: Visit, site: Site) -> list[dict[str, Any]]:
    """What was done, readings in a row on one line; a write-up's text may name people."""
    steps: list[dict[str, Any]] = []
    for event in visit.events:
        if isinstance(event, Measured) and steps and steps[-1]["is_reading"]:
            steps[-1]["text"] += f"; {_said(event, site)}"
        elif _tells(event):
            steps.append(
                {
                    "minute": round(event.minute),
                    "text": _said(event, site),
                    "is_reading": isinstance(event, Measured),
                    "is_turn": isinstance(event, Declared) or hasattr(event, "repair"),
                }
            )
    return steps


def _said(event: Event, site: Site) -> str:
    """What was asked, not what it showed: the wall has room for the way."""
    if isinstance(event, Measured):
        return MEASUREMENTS[event.reading.measurement].name
    return told(event, site, "us")


def _tells(event: Event) -> bool:
    return not isinstance(event, Marked | Moved | Probed)
