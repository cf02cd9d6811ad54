"""The vault: the only module that reads the key of a call."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, NoReturn

from simulator.calls import call_file
from simulator.calls.call_table import CallFileError, table
from simulator.calls.choice import NO_FAULT
from simulator.faults._base import Fault
from simulator.faults._catalogue import discover, named
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.places import PLACES
from simulator.instruments.steps import STEPS
from simulator.repairs import _catalogue as repairs


@dataclass(frozen=True, slots=True, kw_only=True)
class Hazard:
    """A danger of this site, and the act that meets it.

    Parameters
    ----------
    step : str
        The preparation that meets it.
    points : float
        Of the safety part. [-]
    is_always_due : bool
        Whether it must be met even by someone who never goes there.
    places, repairs : tuple
        Readings at these places and these repairs expose the technician.
    is_gate : bool
        Whether an exposed repair without it caps the whole score.
    text : str
        For the debrief.
    """

    step: str
    points: float
    is_always_due: bool
    places: tuple[str, ...]
    repairs: tuple[str, ...]
    is_gate: bool
    text: str


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class Key:
    """What was true, and what counts as finding, mending and proving it.

    Parameters
    ----------
    faults : tuple
        In the installation.
    causes : mapping
        Share of the diagnosis by cause; all of them together are the whole. [-]
    repairs : mapping
        Acts that mend a cause.
    proof : mapping
        Measurements that prove a cause mended when taken before and after.
    hazards : tuple
        To be met.
    usual_minutes : float
        Of measuring, walking and waiting, without repairs, in minutes.
    story : str
        For the debrief.
    """

    faults: tuple[Fault, ...]
    causes: Mapping[str, float]
    repairs: Mapping[str, tuple[str, ...]]
    proof: Mapping[str, tuple[str, ...]]
    hazards: tuple[Hazard, ...]
    usual_minutes: float
    story: str

    def __repr__(self) -> str:
        """Nothing."""
        return "<sealed>"

    def __reduce_ex__(self, protocol: object) -> NoReturn:
        """Refuse pickling and copying."""
        raise TypeError("a key is neither stored nor copied")


class Sealed:
    """A key that cannot be shown, stored or copied by accident.

    Parameters
    ----------
    key : Key
        What to keep.
    """

    __slots__ = ("__key",)

    def __init__(self, key: Key) -> None:
        self.__key = key

    def opened(self) -> Key:
        """The key itself, for the site and for scoring after the visit is closed.

        Returns
        -------
        Key
        """
        return self.__key

    def about_hours(self) -> float:
        """How long careful work takes; said before the visit, so coarse that it tells nothing.

        Returns
        -------
        float
            In hours, to the nearest half.
        """
        return round(self.__key.usual_minutes / 30.0) / 2.0

    def __repr__(self) -> str:
        """Nothing."""
        return "<sealed>"

    __str__ = __repr__

    def __reduce_ex__(self, protocol: object) -> NoReturn:
        """Refuse pickling and copying."""
        raise TypeError("a sealed key is neither stored nor copied")

    def __copy__(self) -> NoReturn:
        """Refuse copying."""
        raise TypeError("a sealed key is neither stored nor copied")

    def __deepcopy__(self, memo: object) -> NoReturn:
        """Refuse copying."""
        raise TypeError("a sealed key is neither stored nor copied")


@lru_cache
def sealed(call: str) -> Sealed:
    """The key of a call.

    Parameters
    ----------
    call : str
        File name.

    Returns
    -------
    Sealed

    Raises
    ------
    CallFileError
        If the file cannot be used.
    """
    return Sealed(understood(call, call_file.document(call)))


def understood(call: str, tables: Mapping[str, Any]) -> Key:
    """The sealed part of a call file.

    Parameters
    ----------
    call : str
        Its name.
    tables : mapping
        As read.

    Returns
    -------
    Key

    Raises
    ------
    CallFileError
        In a sentence that gives nothing away.
    """
    rows = table(call, tables, "sealed")
    try:
        key = Key(
            faults=tuple(named(name, float(x)) for name, x in rows.rows["faults"].items()),
            causes={name: float(share) for name, share in rows.rows["causes"].items()},
            repairs={name: tuple(acts) for name, acts in rows.rows["repairs"].items()},
            proof={name: tuple(tests) for name, tests in rows.rows["proof"].items()},
            hazards=tuple(_hazard(row) for row in rows.rows["hazards"]),
            usual_minutes=float(rows.rows["usual_minutes"]),
            story=rows.text("story"),
        )
    except (KeyError, TypeError, ValueError, OverflowError, AttributeError):
        raise CallFileError(f"The sealed part of call {call} is damaged.") from None
    if not _is_consistent(key):
        raise CallFileError(f"The sealed part of call {call} is damaged.")
    return key


def _hazard(row: Mapping[str, Any]) -> Hazard:
    return Hazard(
        step=str(row["step"]),
        points=float(row["points"]),
        is_always_due=row.get("always") is True,
        places=tuple(row["places"]),
        repairs=tuple(row["repairs"]),
        is_gate=row.get("gate") is True,
        text=str(row["text"]),
    )


def _is_consistent(key: Key) -> bool:
    """Every name and number in the key can be used, and every cause be mended and proven."""
    acts = repairs.discover()
    return (
        all(cause in discover() or cause == NO_FAULT for cause in key.causes)
        and all(math.isfinite(x) for x in (key.usual_minutes, *key.causes.values()))
        and all(math.isfinite(hazard.points) for hazard in key.hazards)
        and all(place in PLACES for hazard in key.hazards for place in hazard.places)
        and all(act in acts for chosen in key.repairs.values() for act in chosen)
        and all(test in MEASUREMENTS for chosen in key.proof.values() for test in chosen)
        and all(hazard.step in STEPS for hazard in key.hazards)
        and all(act in acts for hazard in key.hazards for act in hazard.repairs)
        and (not key.faults or set(key.causes) == set(key.repairs) == set(key.proof))
        # A cause that nothing mends or nothing proves could never be worked to the end.
        and (not key.faults or all((*key.repairs.values(), *key.proof.values())))
    )
