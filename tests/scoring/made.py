"""Visits and grounds made by hand: pure events, and belief as a test wants it."""

from collections.abc import Iterable, Mapping

from simulator.calls.events import Closed, Declared, Event, Measured, Opened, Repaired
from simulator.calls.sealed import Key
from simulator.calls.visit import Visit, fold
from simulator.diagnosis.belief import Belief
from simulator.diagnosis.evidence import weights
from simulator.faults._sizes import is_sized, share_of, size_at
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.reading import Reading
from simulator.scoring.grounds import Choice, Grounds

SETTLED = 60.0  # in minutes, steady by any rule


def sizes_of(key: Key) -> dict[str, str]:
    """How large each fault of a key is, as a finding says it."""
    sized = [fault for fault in key.faults if is_sized(fault.kind)]
    return {fault.kind.id: size_at(share_of(fault)) for fault in sized}


def measured(seq: int, name: str, minute: float) -> Measured:
    """A careful, settled reading."""
    item = MEASUREMENTS[name]
    reading = Reading(
        measurement=name,
        technique=item.techniques[0].id,
        kind=item.kind,
        value=1.0 if item.has_number else None,
        decimals=1,
        words="" if item.has_number else "As seen.",
    )
    return Measured(
        seq=seq, minute=minute, reading=reading, place=item.place, is_running=True, settled=SETTLED
    )


def visit_of(
    stated: Iterable[str],
    *,
    repair: str | None = None,
    again: Iterable[str] = (),
    sizes: Mapping[str, str] | None = None,
) -> Visit:
    """Everything that bears on what is stated is taken and cited, then perhaps a repair."""
    causes = tuple(stated)
    names = list(dict.fromkeys(name for cause in causes for name in weights()[cause]))
    events: list[Event] = [Opened(seq=0, minute=0.0, is_running=True)]
    for name in names:
        events.append(measured(len(events), name, 5.0 * len(events)))
    cited = tuple(range(1, len(events)))
    minute = 5.0 * len(events)
    said = tuple((sizes or {}).get(cause, "") for cause in causes)
    events.append(Declared(seq=len(events), minute=minute, causes=causes, cited=cited, sizes=said))
    if repair is not None:
        done = minute + 60.0
        events.append(
            Repaired(seq=len(events), minute=done, repair=repair, amount=None, minutes=60.0)
        )
    for name in again:
        events.append(measured(len(events), name, minute + 90.0))
    events.append(Closed(seq=len(events), minute=minute + 100.0))
    return fold(events)


def believing(
    visit: Visit,
    sets: Mapping[frozenset[str], float],
    *,
    warmer: float = 0.0,
    choices: tuple[Choice, ...] = (),
) -> Grounds:
    """Belief that never moves; outdoor air warmer after the first repair. [K]"""
    causes: dict[str, float] = {}
    for one, share in sets.items():
        for cause in one:
            causes[cause] = causes.get(cause, 0.0) + share
    first = visit.repairs[0].seq if visit.repairs else visit.next_seq
    return Grounds(
        outdoor={e.seq: 300.0 + (warmer if e.seq > first else 0.0) for e in visit.readings},
        beliefs=(Belief(-1, 0.0, dict(sets), causes),),
        choices=choices,
    )


def likelier(
    one: frozenset[str], odds: float, rival: frozenset[str]
) -> dict[frozenset[str], float]:
    """Two sets at given odds, by decimal logarithm."""
    share = 10.0**odds / (1.0 + 10.0**odds)
    return {one: share, rival: 1.0 - share}
