"""Within what a version of a call may differ, so that every word of its story stays true."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from simulator.calls.call_table import CallFileError
from simulator.faults._catalogue import discover

SEVERITY = 0.08  # of the parent's, either way, where a call says nothing [-]
OUTDOOR = (-2.0, 1.5)  # of high and low, as the words for the weather allow [delta °F]
BILL = 0.06  # of this year's over last year's, either way, where a call says nothing [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bounds:
    """Of one call.

    Parameters
    ----------
    severity : mapping
        Least and most of each fault that has degrees, in the file's unit. [-]
    outdoor : tuple
        Least and most shift of the day's temperatures, in the file's unit. [-]
    bill : tuple or None
        Least and most of this year's use over last year's; None for a sound house. [-]
    houses, units : tuple
        Shipped ones that the work order's words fit.
    """

    severity: Mapping[str, tuple[float, float]]
    outdoor: tuple[float, float]
    bill: tuple[float, float] | None
    houses: tuple[str, ...]
    units: tuple[str, ...]


def bounds_of(call: str, tables: Mapping[str, Any], ratio: float) -> Bounds:
    """Bounds of a call from its file.

    Parameters
    ----------
    call : str
        Its name.
    tables : mapping
        As read; ``[sealed.versions]`` may narrow or widen what is usual.
    ratio : float
        Of the parent's bills, this year's over last year's. [-]

    Returns
    -------
    Bounds

    Raises
    ------
    CallFileError
        If what is said there cannot be used.
    """
    site, sealed = tables["site"], tables["sealed"]
    own = sealed.get("versions", {})
    try:
        spans = {name: _pair(span) for name, span in own.get("severity", {}).items()}
        found = sealed["faults"]
        return Bounds(
            severity={
                name: _in_range(
                    name, spans.get(name, ((1.0 - SEVERITY) * size, (1.0 + SEVERITY) * size))
                )
                for name, size in found.items()
            },
            outdoor=_pair(own.get("outdoor", OUTDOOR)),
            bill=_pair(own.get("bill", (ratio - BILL, ratio + BILL))) if found else None,
            houses=tuple(map(str, own.get("houses", (site["house"],)))),
            units=tuple(map(str, own.get("units", (site["unit"],)))),
        )
    except (TypeError, ValueError, AttributeError, KeyError):
        raise CallFileError(f"The versions that call {call} allows cannot be read.") from None


def _pair(span: Any) -> tuple[float, float]:
    low, high = (float(x) for x in span)
    return low, high


def _in_range(fault: str, span: tuple[float, float]) -> tuple[float, float]:
    """No more than the fault can have."""
    kind = discover()[fault]
    return max(span[0], kind.low), min(span[1], kind.high)
