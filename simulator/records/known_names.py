"""Names in stored events: all must still mean something to the program that reads them."""

from collections.abc import Sequence

from simulator.calls.actions import MARKS
from simulator.calls.event_storage import DamagedEvent
from simulator.calls.events import (
    Declared,
    Event,
    Hinted,
    Marked,
    Measured,
    Moved,
    Prepared,
    Probed,
    Repaired,
)
from simulator.calls.probes import hindrance
from simulator.diagnosis.causes import codes
from simulator.diagnosis.coached import RUNGS, can_be_coached
from simulator.faults._sizes import SIZES
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.places import PLACES
from simulator.instruments.reading import Reading
from simulator.instruments.steps import STEPS
from simulator.repairs._catalogue import discover

FINEST = 6  # decimals of any tool


def require_known(stored: Sequence[Event]) -> None:
    """Refuse events that name what there is not.

    Parameters
    ----------
    stored : sequence
        A whole visit, oldest first.

    Raises
    ------
    DamagedEvent
        At the first such event.
    """
    measured = {event.seq for event in stored if isinstance(event, Measured)}
    for event in stored:
        if not _is_known(event, measured):
            raise DamagedEvent(f"Entry {event.seq} of this visit names what there is not.")


def _is_known(event: Event, measured: set[int]) -> bool:
    match event:
        case Moved():
            return event.place in PLACES
        case Prepared():
            return event.step in STEPS
        case Measured():
            return event.place in PLACES and _can_be_shown(event.reading)
        case Marked():
            return event.cause in codes() and event.mark in MARKS
        case Declared():
            sizes = set(event.sizes) <= {"", *SIZES}
            return sizes and set(event.causes) <= set(codes()) and set(event.cited) <= measured
        case Repaired():
            act = discover().get(event.repair)
            return act is not None and (event.amount is None or act.amount_name is not None)
        case Probed():
            return set(event.causes) <= set(codes()) and not hindrance(event.causes, event.shares)
        case Hinted():
            return 1 <= event.rung <= RUNGS and can_be_coached(event.about)
        case _:
            return True


def _can_be_shown(reading: Reading) -> bool:
    item = MEASUREMENTS.get(reading.measurement)
    return (
        item is not None
        and reading.technique in {way.id for way in item.techniques}
        and reading.kind == item.kind
        and 0 <= reading.decimals <= FINEST
    )
