"""A ladder of hints for practice: ask, point, show a sound value, work the step.

References
----------
.. [1] Hints from a question down to a worked step, each at a price: common in coached
   practice, from memory.
"""

from dataclasses import dataclass

from simulator.calls.call_file import CallFile
from simulator.calls.events import Measured, Prepared, Repaired
from simulator.calls.repair_terms import LOOKS_LOCKED_OUT, lock_out_of
from simulator.calls.visit import Visit
from simulator.diagnosis.belief import standing
from simulator.diagnosis.coach_ladders import ladder_of
from simulator.diagnosis.coach_leads import leading
from simulator.diagnosis.coach_targets import (
    Target,
    hazards_at,
    plain_target,
    reckoned_target,
)
from simulator.diagnosis.coach_themes import themes
from simulator.diagnosis.coached import ACTS, RECORD, RUNGS
from simulator.diagnosis.expected import expected_at
from simulator.diagnosis.healthy_today import healthy_words
from simulator.diagnosis.next_reading import minutes_for
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.places import PLACES
from simulator.instruments.settling import settles_after
from simulator.instruments.steps import STEPS
from simulator.instruments.techniques import PLAIN

ASKS, POINTS, EXPECTS = 1, 2, 3  # the fourth works the step
NO_FIGURE = (
    "There is no figure to expect. A useful answer names a date, a change, a room or a person."
)
LOOKED = (
    "Say what you see before you say what it means; a look that finds nothing clears something too."
)
DONE = "Nothing is left to hint at: leave the site when you are ready."
CHECKED_FIRST = {"thermometer": "match_probes", "pipe_clamp": "match_probes",
                 "manometer": "zero_manometer"}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Hint:
    """What the coach says.

    Parameters
    ----------
    rung : int
        1 to 4; 0 where nothing is left to hint at. [-]
    about : str
        Code of what it is about.
    said, said_si : tuple
        Sentences, in US units and in SI: who switches after it was told reads it again.
    is_new : bool
        Whether it is a rung not taken before; the last one may be read again.
    """

    rung: int
    about: str
    said: tuple[str, ...]
    said_si: tuple[str, ...]
    is_new: bool = True


def hint_at_once(visit: Visit, call: CallFile) -> Hint | None:
    """A hint that takes no reckoning.

    Parameters
    ----------
    visit : Visit
        Open.
    call : CallFile
        The public part.

    Returns
    -------
    Hint or None
        None where the worth of readings decides.
    """
    target = plain_target(visit)
    if target is None or (_is_reckoned(target.about) and target.worth):
        return None
    return _hint(target, visit, call)


def hint(visit: Visit, call: CallFile) -> Hint:
    """The next hint; it depends on the visit's readings and the public file alone.

    Parameters
    ----------
    visit : Visit
        Open.
    call : CallFile
        The public part.

    Returns
    -------
    Hint
    """
    target = plain_target(visit) or reckoned_target(visit, call, standing(visit, call))
    return _hint(target, visit, call)


def _is_reckoned(about: str) -> bool:
    """Whether a sound value of it comes from the table of the call."""
    return about in MEASUREMENTS and MEASUREMENTS[about].way != "ask"


def _hint(target: Target, visit: Visit, call: CallFile) -> Hint:
    if target.about == RECORD and visit.write_up is not None:
        return Hint(0, RECORD, (DONE,), (DONE,), is_new=False)
    given = _given(target.about, visit)
    if given >= RUNGS:
        last = next(e for e in reversed(visit.hints) if e.about == target.about)
        return Hint(RUNGS, target.about, last.said, last.said_si, is_new=False)
    rung = given + 1

    def said(system: str) -> tuple[str, ...]:
        if target.about not in MEASUREMENTS:
            lines = _of_act(target, rung, call)
        else:
            lines = _of_reading(target, rung, visit, call, system)
        return tuple(line for line in lines if line)

    return Hint(rung, target.about, said("us"), said("si"))


def _given(about: str, visit: Visit) -> int:
    """The rung reached for it since it was last done."""
    since = -1
    for event in visit.events:
        if isinstance(event, Measured):
            is_it = event.reading.measurement == about
        else:
            is_it = isinstance(event, Prepared) and event.step == about
        if is_it or isinstance(event, Repaired):
            since = event.seq
    rungs = [e.rung for e in visit.hints if e.about == about and e.seq > since]
    return max(rungs, default=0)


def _place(place: str, call: CallFile) -> str:
    return call.place_names.get(place, PLACES[place].name)


def _of_act(target: Target, rung: int, call: CallFile) -> list[str]:
    """Rungs of a preparation or an act."""
    ladder = ladder_of(target.about)
    if rung == ASKS:
        return [ladder.asks, target.open_still]
    if rung == POINTS:
        return [ladder.points, *([] if target.about in ACTS else [_step_at(target.about, call)])]
    return [ladder.expects if rung == EXPECTS else ladder.works]


def _step_at(step: str, call: CallFile) -> str:
    item = STEPS[step]
    return f"{item.name}. Where: {_place(item.place, call)}. It takes {item.minutes:.0f} min."


def _of_reading(target: Target, rung: int, visit: Visit, call: CallFile, system: str) -> list[str]:
    """Rungs of a reading."""
    item = MEASUREMENTS[target.about]
    theme = themes()[target.about]
    if rung == ASKS:
        return [*leading(target.about, visit), target.open_still]
    if rung == POINTS:
        is_running = visit.is_running if item.way == "ask" else target.is_running
        minutes = minutes_for(item.id, visit, is_running=is_running)
        return [
            f"Worth your minutes now: {item.said}. Where: {_place(item.place, call)}.",
            f"About {minutes:.0f} min, with the way there and what it needs first.",
            target.worth,
            *target.beside,
        ]
    if rung == EXPECTS:
        if item.way == "ask":
            return [NO_FIGURE]
        table = expected_at(call)
        return [healthy_words(item.id, target.is_running, visit, call, table, system)]
    first = [f"First: {said}" for said in _before(target, visit, call)]
    way = item.techniques[0].name
    how = f"Then take it like this: {way[:1].lower() + way[1:]}."
    is_plain = item.techniques == PLAIN
    return [
        *first,
        "" if is_plain else how,
        LOOKED if item.way in ("look", "feel") else theme.reading,
    ]


def _before(target: Target, visit: Visit, call: CallFile) -> list[str]:
    """What comes before a careful reading, in the order in which it is done."""
    item = MEASUREMENTS[target.about]
    said = []
    lock_out = lock_out_of(visit, item.id)
    must_run = target.is_running and item.id not in LOOKS_LOCKED_OUT
    if item.way != "ask" and must_run != visit.is_running:
        said.append("start the system." if must_run else "switch the system off.")
    check = CHECKED_FIRST.get(item.tool_id)
    steps = [
        *([check] if check is not None and check not in visit.prepared else []),
        *hazards_at(item.place, visit),
        *(need for need in item.needs if need not in visit.prepared),
        *([] if lock_out is None else [lock_out.id]),
    ]
    for step in dict.fromkeys(steps):
        name, place = STEPS[step].name, STEPS[step].place
        where = "" if place == item.place else f" ({_place(place, call)})"
        said.append(f"{name[:1].lower() + name[1:]}{where}.")
    left = settles_after(item.id) - (visit.minute - visit.changed_at)
    if item.has_number and target.is_running and visit.is_running and left > 0.0:
        said.append(f"let it run {left:.0f} min more, until it is steady.")
    return said
