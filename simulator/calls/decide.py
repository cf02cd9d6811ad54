"""From what is asked to what happens, or to one sentence that says why it does not."""

from collections.abc import Collection, Mapping

from simulator.calls import actions, events, probes
from simulator.calls.choice import NO_FAULT
from simulator.calls.repair_terms import PLACES_OF_REPAIRS, WALK, hindrance, walk_to
from simulator.calls.site import Site
from simulator.calls.visit import Visit
from simulator.faults import _catalogue as faults
from simulator.faults._sizes import SIZES, is_sized
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.places import PLACES
from simulator.instruments.session import Session
from simulator.instruments.step_findings import Surroundings, found
from simulator.instruments.steps import STEPS
from simulator.repairs import _catalogue as repairs

SHORTEST_WAIT, LONGEST_WAIT = 1.0, 120.0
LONGEST_TEXT = 4000
_ON_PAPER = (actions.Mark, actions.Declare, actions.WriteUp, actions.Probe, actions.Close)


class Refused(ValueError):
    """Something that cannot be done now; its text is one sentence for the trainee."""


def place_name(site: Site, place: str) -> str:
    """What a place is called on this site.

    Parameters
    ----------
    site : Site
    place : str
        Its id.

    Returns
    -------
    str
    """
    return site.call.place_names.get(place, PLACES[place].name)


def decide(
    visit: Visit, action: actions.Action, *, site: Site, causes: Collection[str]
) -> list[events.Event]:
    """What an action brings about.

    Parameters
    ----------
    visit : Visit
        As it stands.
    action : Action
        What is asked.
    site : Site
        Where.
    causes : collection
        Codes of all causes that may be named.

    Returns
    -------
    list
        Events to be stored.

    Raises
    ------
    Refused
        With the reason.
    """
    if visit.is_closed:
        raise Refused("This visit is closed; its debrief is on the home page.")
    if isinstance(action, _ON_PAPER):
        return [_paperwork(visit, action, causes)]
    if isinstance(action, actions.Repair):
        return _repaired(visit, action)
    return [_on_site(visit, action, site)]


def _on_site(visit: Visit, action: actions.Action, site: Site) -> events.Event:
    match action:
        case actions.GoTo():
            return _moved(visit, action, site)
        case actions.Prepare():
            return _prepared(visit, action, site)
        case actions.Measure():
            return _measured(visit, action, site)
        case actions.Wait():
            return _waited(visit, action)
        case _:
            return _switched(visit, is_start=isinstance(action, actions.StartSystem))


def _paperwork(visit: Visit, action: actions.Action, causes: Collection[str]) -> events.Event:
    match action:
        case actions.Mark():
            return _marked(visit, action, causes)
        case actions.Declare():
            return _declared(visit, action, causes)
        case actions.WriteUp():
            return _written(visit, action)
        case actions.Probe():
            return _probed(visit, action, causes)
        case _:
            return _closed(visit)


def _moved(visit: Visit, action: actions.GoTo, site: Site) -> events.Moved:
    if action.place not in PLACES:
        raise Refused(f"There is no place called {action.place[:40]!r} on this site.")
    if action.place == visit.place:
        raise Refused(f"You are there already: {place_name(site, action.place)}.")
    return events.Moved(seq=visit.next_seq, minute=visit.minute + WALK, place=action.place)


def _stand_at(visit: Visit, place: str, site: Site) -> None:
    if visit.place != place:
        raise Refused(f"That is done elsewhere: go to {place_name(site, place)} first.")


def _prepared(visit: Visit, action: actions.Prepare, site: Site) -> events.Prepared:
    step = STEPS.get(action.step)
    if step is None:
        raise Refused(f"There is no preparation called {action.step[:40]!r}.")
    _stand_at(visit, step.place, site)
    if visit.prepared & {step.id, step.stands_for}:
        raise Refused(f"That is done already: {step.name}.")
    minute = visit.minute + step.minutes
    around = Surroundings(
        session=Session.of_visit(site.seed),
        point=site.moment(visit, minute).now,
        equipment=site.call.equipment,
        refrigerant=site.healthy().unit.refrigerant,
    )
    return events.Prepared(
        seq=visit.next_seq, minute=minute, step=step.id, found=found(step.id, around)
    )


def _measured(visit: Visit, action: actions.Measure, site: Site) -> events.Measured:
    item = MEASUREMENTS.get(action.measurement)
    if item is None:
        raise Refused(f"There is no test called {action.measurement[:40]!r}.")
    if action.technique not in {technique.id for technique in item.techniques}:
        raise Refused(f"{item.name} cannot be taken that way: {action.technique[:40]!r}.")
    _stand_at(visit, item.place, site)
    missing = [STEPS[need] for need in item.needs if need not in visit.prepared]
    if missing:
        where = "" if missing[0].place == visit.place else f" ({PLACES[missing[0].place].name})"
        raise Refused(f"First: {missing[0].name}{where}.")
    minute = visit.minute + item.minutes_by(action.technique)
    return events.Measured(
        seq=visit.next_seq,
        minute=minute,
        reading=site.reading(visit, item.id, action.technique, minute),
        place=item.place,
        is_running=visit.is_running,
        settled=minute - visit.changed_at,
        problems=site.charge_problems(visit, item.id, minute),
    )


def _switched(visit: Visit, *, is_start: bool) -> events.Event:
    if is_start == visit.is_running:
        raise Refused(f"The system is {'running' if is_start else 'off'} already.")
    kind = events.Started if is_start else events.Stopped
    return kind(seq=visit.next_seq, minute=visit.minute + 1.0)


def _waited(visit: Visit, action: actions.Wait) -> events.Waited:
    if not SHORTEST_WAIT <= action.minutes <= LONGEST_WAIT:
        raise Refused(
            f"The wait must be {SHORTEST_WAIT:.0f} to {LONGEST_WAIT:.0f} min, "
            f"not {action.minutes:g}."
        )
    return events.Waited(
        seq=visit.next_seq, minute=visit.minute + action.minutes, minutes=action.minutes
    )


def _repaired(visit: Visit, action: actions.Repair) -> list[events.Event]:
    """The repair, and the walk to its place where one stands elsewhere."""
    kind = repairs.discover().get(action.repair)
    if kind is None:
        raise Refused(f"There is no repair called {action.repair[:40]!r}.")
    if kind.amount_name is None and action.amount is not None:
        raise Refused(f"{kind.title} takes no amount.")
    if kind.amount_name is not None:
        if action.amount is None:
            raise Refused(f"Say how much: {kind.amount_name}.")
        if not kind.low <= action.amount <= kind.high:
            raise Refused(f"{kind.title}: that amount is outside what the scale allows.")
    if (first := hindrance(visit, action.repair)) is not None:
        raise Refused(first)
    walk = walk_to(visit, action.repair)
    done: list[events.Event] = []
    if walk > 0.0:
        place = PLACES_OF_REPAIRS[action.repair]
        done.append(events.Moved(seq=visit.next_seq, minute=visit.minute + walk, place=place))
    done.append(
        events.Repaired(
            seq=visit.next_seq + len(done),
            minute=visit.minute + walk + kind.minutes,
            repair=action.repair,
            amount=action.amount,
            minutes=kind.minutes,
        )
    )
    return done


def _known(cause: str, causes: Collection[str]) -> str:
    if cause not in causes:
        raise Refused(f"There is no cause called {cause[:40]!r} in the list.")
    return cause


def _marked(visit: Visit, action: actions.Mark, causes: Collection[str]) -> events.Marked:
    _known(action.cause, causes)
    if action.mark not in actions.MARKS:
        raise Refused("A cause is marked open, likely or ruled out.")
    return events.Marked(
        seq=visit.next_seq, minute=visit.minute, cause=action.cause, mark=action.mark
    )


def _declared(visit: Visit, action: actions.Declare, causes: Collection[str]) -> events.Declared:
    if not action.causes:
        raise Refused("Choose at least one cause, or state that no fault was found.")
    chosen = tuple(dict.fromkeys(_known(cause, causes) for cause in action.causes))
    if NO_FAULT in chosen and len(chosen) > 1:
        raise Refused("No fault found cannot stand beside a fault; choose one or the other.")
    if action.sizes and len(action.sizes) != len(action.causes):
        raise Refused("Say of every cause how large it is, or of none.")
    taken = {event.seq for event in visit.readings}
    for seq in action.cited:
        if seq not in taken:
            raise Refused(f"There is no reading number {seq} on the sheet.")
    return events.Declared(
        seq=visit.next_seq,
        minute=visit.minute,
        causes=chosen,
        cited=tuple(dict.fromkeys(action.cited)),
        sizes=_sizes(chosen, dict(zip(action.causes, action.sizes, strict=False))),
    )


def _sizes(causes: tuple[str, ...], said: Mapping[str, str]) -> tuple[str, ...]:
    """How large each is; of what has no degrees nothing is said."""
    for size in said.values():
        if size and size not in SIZES:
            raise Refused("A cause is slight, moderate or severe.")
    kinds = faults.discover()
    sized = [code in kinds and is_sized(kinds[code]) for code in causes]
    return tuple(said.get(code, "") if has else "" for code, has in zip(causes, sized, strict=True))


def _written(visit: Visit, action: actions.WriteUp) -> events.WrittenUp:
    text = action.text.strip()
    if not text:
        raise Refused("The write-up is empty; say what was found, done and measured.")
    if len(text) > LONGEST_TEXT:
        raise Refused(f"The write-up must stay below {LONGEST_TEXT:,} characters.")
    return events.WrittenUp(seq=visit.next_seq, minute=visit.minute + 5.0, text=text)


def _probed(visit: Visit, action: actions.Probe, causes: Collection[str]) -> events.Probed:
    if not probes.is_due(visit):
        raise Refused("Nothing is asked now; your odds count when the page asks for them.")
    chosen = tuple(_known(cause, causes) for cause in action.causes)
    problem = probes.hindrance(chosen, action.shares)
    if problem is not None:
        raise Refused(problem)
    return events.Probed(
        seq=visit.next_seq, minute=visit.minute, causes=chosen, shares=action.shares
    )


def _closed(visit: Visit) -> events.Closed:
    if visit.finding is None:
        raise Refused("State your finding before you leave; no fault found is one too.")
    return events.Closed(seq=visit.next_seq, minute=visit.minute)
