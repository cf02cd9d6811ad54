"""Events as plain data and back; what is damaged is refused."""

from dataclasses import fields
from math import isfinite
from typing import Any, get_args, get_origin

from simulator.calls.events import Event, Measured
from simulator.instruments.reading import Reading

_KINDS: dict[str, type[Event]] = {kind.__name__: kind for kind in get_args(Event)}


class DamagedEvent(ValueError):
    """A stored event that cannot be understood, in one sentence."""


def kind(event: Event) -> str:
    """Name under which an event is stored.

    Parameters
    ----------
    event : Event

    Returns
    -------
    str
        Its class name.
    """
    return type(event).__name__


def payload(event: Event) -> dict[str, Any]:
    """What is stored beside number, kind and minute.

    Parameters
    ----------
    event : Event

    Returns
    -------
    dict
        Plain data.
    """
    own = {
        field.name: getattr(event, field.name)
        for field in fields(event)
        if field.name not in ("seq", "minute")
    }
    if isinstance(event, Measured):
        own["reading"] = event.reading.as_dict()
    return own


def restored(seq: int, name: str, minute: float, data: dict[str, Any]) -> Event:
    """An event back from storage.

    Parameters
    ----------
    seq : int
        Its number.
    name : str
        As ``kind`` gave it.
    minute : float
        In minutes after arrival.
    data : dict
        As ``payload`` gave it.

    Returns
    -------
    Event

    Raises
    ------
    DamagedEvent
        If kind or data are not those of an event.
    """
    try:
        own: dict[str, Any] = {
            key: tuple(x) if isinstance(x, list) else x for key, x in data.items()
        }
        if "reading" in own:
            own["reading"] = Reading.from_dict(own["reading"])
            _check(own["reading"])
        event = _KINDS[name](seq=seq, minute=minute, **own)
        _check(event)
        return event
    except (KeyError, TypeError, AttributeError):
        raise DamagedEvent(
            f"Entry {seq} of this visit cannot be read; nothing after it has been changed."
        ) from None


def _check(stored: Event | Reading) -> None:
    for field in fields(stored):
        if not _fits(getattr(stored, field.name), field.type):
            raise TypeError(field.name)


def _fits(value: object, wanted: Any) -> bool:
    """Whether a value is of the kind a field was declared with."""
    if get_origin(wanted) is tuple:
        return isinstance(value, tuple) and all(_fits(x, get_args(wanted)[0]) for x in value)
    if isinstance(value, bool):
        return wanted is bool
    if isinstance(value, float) and not isfinite(value):
        return False
    return isinstance(value, wanted | int if wanted in (float, float | None) else wanted)
