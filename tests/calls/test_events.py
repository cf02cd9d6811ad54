"""Every kind of event survives storage, and what is damaged is refused."""

import json
from typing import Any, get_args

import pytest

from simulator.calls import event_storage, events
from simulator.calls.visit import Visit, advanced, fold
from simulator.instruments.reading import Reading

READING = Reading(
    measurement="ask_when", technique="careful", kind="temperature", value=290.15, decimals=1
)
LATER = (
    "problems",
    "found",
    "said_si",
    "sizes",
)  # may be absent in visits stored before these were kept
EVERY: list[events.Event] = [
    events.Opened(seq=0, minute=0.0, is_running=False),
    events.Moved(seq=1, minute=2.0, place="zone"),
    events.Prepared(seq=2, minute=3.0, step="consent", found="Agreed."),
    events.Measured(seq=3, minute=4.5, reading=READING, place="zone", is_running=True,
                    settled=184.5, problems=("One.", "Two.")),
    events.Started(seq=4, minute=5.5),
    events.Stopped(seq=5, minute=6.5),
    events.Waited(seq=6, minute=16.5, minutes=10.0),
    events.Marked(seq=7, minute=16.5, cause="undercharge", mark="likely"),
    events.Declared(seq=8, minute=16.5, causes=("undercharge", "return_leak"), cited=(3,),
                    sizes=("slight", "")),
    events.Repaired(seq=9, minute=36.5, repair="add_refrigerant", amount=0.2, minutes=20.0),
    events.Repaired(seq=10, minute=56.5, repair="seal_supply", amount=None, minutes=20.0),
    events.WrittenUp(seq=11, minute=61.5, text="Ünïcode, \"quotes\" and \n lines."),
    events.Hinted(seq=12, minute=61.5, rung=2, about="look_filter", said=("One.", "Two.")),
    events.Probed(seq=13, minute=61.5, causes=("undercharge", "return_leak"), shares=(0.5, 0.25)),
    events.Closed(seq=14, minute=61.5),
]  # fmt: skip


def stored(event: events.Event) -> dict[str, Any]:
    """What comes back from a file for an event."""
    back: dict[str, Any] = json.loads(json.dumps(event_storage.payload(event), allow_nan=False))
    return back


@pytest.mark.parametrize("event", EVERY, ids=event_storage.kind)
def test_an_event_comes_back_the_same(event: events.Event) -> None:
    assert (
        event_storage.restored(event.seq, event_storage.kind(event), event.minute, stored(event))
        == event
    )


def test_no_kind_of_event_is_forgotten() -> None:
    assert {type(event) for event in EVERY} == set(get_args(events.Event))


@pytest.mark.parametrize("event", EVERY, ids=event_storage.kind)
def test_a_damaged_event_is_refused(event: events.Event) -> None:
    name, data = event_storage.kind(event), stored(event)
    damaged: list[Any] = [{**data, "extra": 1}, {**data, "seq": 1}, [data], None, "x", 3]
    for key in data:
        lacking = {k: x for k, x in data.items() if k != key}
        damaged.append(lacking if key not in LATER else 3)
        damaged += [{**data, key: wrong} for wrong in ({}, {"a": 1}, [[]], float("inf"))]
    for wrong in damaged:
        with pytest.raises(event_storage.DamagedEvent):
            event_storage.restored(event.seq, name, event.minute, wrong)
    for minute in ("soon", None, float("nan"), True):
        with pytest.raises(event_storage.DamagedEvent):
            event_storage.restored(event.seq, name, minute, data)  # type: ignore[arg-type]
    with pytest.raises(event_storage.DamagedEvent):
        event_storage.restored(event.seq, name.lower(), event.minute, data)


def test_the_fold_is_the_state_step_by_step() -> None:
    visit = Visit()
    for count, event in enumerate(EVERY, start=1):
        visit = advanced(visit, event)
        assert visit == fold(EVERY[:count])
        assert visit.next_seq == count
