"""What has happened on a visit; the list of these is the only truth about it."""

from dataclasses import dataclass, fields
from math import isfinite
from typing import Any, get_args, get_origin

from simulator.instruments.reading import Reading


@dataclass(frozen=True, slots=True, kw_only=True)
class _Happening:
    """What every event carries.

    Parameters
    ----------
    seq : int
        Its number in the visit, from 0.
    minute : float
        Site time at its end, in minutes after arrival.
    """

    seq: int
    minute: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened(_Happening):
    """The technician has arrived.

    Parameters
    ----------
    is_running : bool
        Whether the system was found running.
    """

    is_running: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved(_Happening):
    """Walked to another place.

    Parameters
    ----------
    place : str
        Where to.
    """

    place: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Prepared(_Happening):
    """A preparation is done.

    Parameters
    ----------
    step : str
        Which.
    found : str
        What it told, stored as seen.
    """

    step: str
    found: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured(_Happening):
    """A reading was taken, stored as seen.

    Parameters
    ----------
    reading : Reading
        As shown.
    place : str
        Where.
    is_running : bool
        Whether the system ran.
    settled : float
        Since the last start, stop or repair, in minutes.
    problems : tuple
        Why a charge test resting on this reading would not count; one sentence each.
    """

    reading: Reading
    place: str
    is_running: bool
    settled: float
    problems: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Started(_Happening):
    """The system was started."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stopped(_Happening):
    """The system was switched off."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Waited(_Happening):
    """Time passed.

    Parameters
    ----------
    minutes : float
        How much, in minutes.
    """

    minutes: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Marked(_Happening):
    """A cause was marked.

    Parameters
    ----------
    cause, mark : str
        Which, and as what.
    """

    cause: str
    mark: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Declared(_Happening):
    """A finding was stated.

    Parameters
    ----------
    causes : tuple
        Codes.
    cited : tuple
        Event numbers of the readings it rests on.
    """

    causes: tuple[str, ...]
    cited: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Repaired(_Happening):
    """A service act was carried out.

    Parameters
    ----------
    repair : str
        Which.
    amount : float, optional
        For acts that have one. [kg]
    minutes : float
        What it took, in minutes.
    """

    repair: str
    amount: float | None
    minutes: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenUp(_Happening):
    """The record was written.

    Parameters
    ----------
    text : str
        As typed.
    """

    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Closed(_Happening):
    """The technician has left."""


Event = (
    Opened
    | Moved
    | Prepared
    | Measured
    | Started
    | Stopped
    | Waited
    | Marked
    | Declared
    | Repaired
    | WrittenUp
    | Closed
)
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
