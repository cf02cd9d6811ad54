"""A visit as it stands: the fold of its events."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from simulator.calls.events import (
    Closed,
    Declared,
    Event,
    Hinted,
    Marked,
    Measured,
    Moved,
    Opened,
    Prepared,
    Repaired,
    Started,
    Stopped,
    WrittenUp,
)
from simulator.calls.traces import GAS_LOST, left_after
from simulator.instruments.steps import LOCK_OUTS, brought
from simulator.repairs._catalogue import discover

# Arrival is put this long after the last start or stop that nobody on site saw.
LONG_AGO = -180.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit:
    """Where a visit stands. Times are in minutes after arrival.

    Parameters
    ----------
    events : tuple
        Everything that happened.
    place : str
        Where the technician is.
    minute : float
        Site time, in minutes.
    is_running : bool
        Whether the system is called on.
    switched_at : float
        Last start or stop, in minutes.
    changed_at : float
        Last start, stop, repair or other change of the unit, in minutes.
    charge_changed_at : float
        Last opening of the circuit, in minutes.
    prepared : frozenset
        Steps done.
    left : frozenset
        What carelessness left behind and nobody has put right.
    marks : mapping
        By cause.
    finding : Declared, optional
        The last one.
    write_up : str, optional
        The last one.
    is_closed : bool
        Whether the technician has left.
    """

    events: tuple[Event, ...] = ()
    place: str = "customer"
    minute: float = 0.0
    is_running: bool = False
    switched_at: float = LONG_AGO
    changed_at: float = LONG_AGO
    charge_changed_at: float = LONG_AGO
    prepared: frozenset[str] = frozenset()
    left: frozenset[str] = frozenset()
    marks: Mapping[str, str] = field(default_factory=dict)
    finding: Declared | None = None
    write_up: str | None = None
    is_closed: bool = False

    @property
    def next_seq(self) -> int:
        """Number of the next event.

        Returns
        -------
        int
        """
        return len(self.events)

    @property
    def readings(self) -> tuple[Measured, ...]:
        """All readings, oldest first.

        Returns
        -------
        tuple
        """
        return tuple(event for event in self.events if isinstance(event, Measured))

    @property
    def hints(self) -> tuple[Hinted, ...]:
        """All hints taken, oldest first.

        Returns
        -------
        tuple
        """
        return tuple(event for event in self.events if isinstance(event, Hinted))

    @property
    def repairs(self) -> tuple[Repaired, ...]:
        """All repairs, oldest first.

        Returns
        -------
        tuple
        """
        return tuple(event for event in self.events if isinstance(event, Repaired))


def advanced(visit: Visit, event: Event) -> Visit:
    """The visit after one more event.

    Parameters
    ----------
    visit : Visit
        Left as it is.
    event : Event
        What happened.

    Returns
    -------
    Visit
    """
    left = left_after(visit.left, event)
    after = _after(visit, event)
    if left != visit.left and not isinstance(event, Repaired):
        opened = GAS_LOST in left - visit.left
        after = replace(
            after,
            changed_at=event.minute,
            charge_changed_at=event.minute if opened else visit.charge_changed_at,
        )
    return replace(
        after,
        events=(*visit.events, event),
        minute=max(event.minute, visit.minute),
        left=left,
    )


def _after(visit: Visit, event: Event) -> Visit:
    match event:
        case Opened():
            return replace(visit, is_running=event.is_running)
        case Moved():
            return replace(visit, place=event.place)
        case Prepared():
            return replace(visit, prepared=visit.prepared | brought(event.step))
        case Started() | Stopped():
            return replace(
                visit,
                is_running=isinstance(event, Started),
                switched_at=event.minute,
                changed_at=event.minute,
                # Nothing is locked out while it runs, nor by a lock put on before it stopped.
                prepared=visit.prepared - LOCK_OUTS,
            )
        case Repaired():
            act = discover().get(event.repair)
            opened = act is not None and act.disturbs_charge
            return replace(
                visit,
                changed_at=event.minute,
                charge_changed_at=event.minute if opened else visit.charge_changed_at,
            )
        case _:
            return _after_paperwork(visit, event)


def _after_paperwork(visit: Visit, event: Event) -> Visit:
    match event:
        case Marked():
            return replace(visit, marks={**visit.marks, event.cause: event.mark})
        case Declared():
            return replace(visit, finding=event)
        case WrittenUp():
            return replace(visit, write_up=event.text)
        case Closed():
            return replace(visit, is_closed=True)
        case _:
            return visit


def along(events: Iterable[Event]) -> Iterator[tuple[Visit, Event]]:
    """Each event with the visit as it stood before.

    Parameters
    ----------
    events : iterable
        Oldest first.

    Yields
    ------
    tuple
        Visit and event.
    """
    visit = Visit()
    for event in events:
        yield visit, event
        visit = advanced(visit, event)


def fold(events: Iterable[Event]) -> Visit:
    """The visit that a list of events makes.

    Parameters
    ----------
    events : iterable
        Oldest first.

    Returns
    -------
    Visit
    """
    visit = Visit()
    for event in events:
        visit = advanced(visit, event)
    return visit
