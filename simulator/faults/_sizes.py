"""How large a fault is, coarsely: what a finding says of it, and how near that comes."""

from simulator.faults._base import COUNTED, Fault, FaultKind
from simulator.quantities.shown import show

SIZES = ("slight", "moderate", "severe")
BOUNDS = (0.40, 0.70)  # between them, as shares of the range met in the field [-]
NEAR = 0.05  # of the range: so near a bound both sides of it are right [-]
ONE_OFF = 0.5  # what the size beside the right one is worth [-]
FEET = 0.3048  # [m]


def is_sized(kind: FaultKind) -> bool:
    """Whether it has degrees at all.

    Parameters
    ----------
    kind : FaultKind
        Which.

    Returns
    -------
    bool
    """
    return not kind.is_all_or_nothing


def size_at(share: float) -> str:
    """A size by its share of the range.

    Parameters
    ----------
    share : float
        From 0 to 1. [-]

    Returns
    -------
    str
        One of ``SIZES``.

    Examples
    --------
    >>> size_at(0.5)
    'moderate'
    """
    return SIZES[sum(share >= bound for bound in BOUNDS)]


def share_of(fault: Fault) -> float:
    """How much of its range a fault takes up.

    Parameters
    ----------
    fault : Fault
        Of some severity.

    Returns
    -------
    float
        [-]
    """
    return fault.severity / (fault.kind.high * fault.kind.unit_in_si)


def nearness(fault: Fault, stated: str) -> float:
    """How near a stated size comes to the true one.

    Parameters
    ----------
    fault : Fault
        As it was.
    stated : str
        One of ``SIZES``, or nothing.

    Returns
    -------
    float
        1 for right, less for the one beside it, 0 else. [-]
    """
    if stated not in SIZES:
        return 0.0
    share, said = share_of(fault), SIZES.index(stated)
    right = {SIZES.index(size_at(share + off)) for off in (-NEAR, 0.0, NEAR)}
    if said in right:
        return 1.0
    return ONE_OFF if any(abs(said - place) == 1 for place in right) else 0.0


def bounds_shown(kind: FaultKind, system: str) -> list[list[str]]:
    """The two bounds as people read them.

    Parameters
    ----------
    kind : FaultKind
        Which.
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    list
        Number and unit of each; nothing where it has no degrees.
    """
    if not is_sized(kind):
        return []
    return [amount_shown(kind, bound * kind.high, system) for bound in BOUNDS]


def amount_shown(kind: FaultKind, amount: float, system: str) -> list[str]:
    """An amount of a fault as people read it.

    Parameters
    ----------
    kind : FaultKind
        Which.
    amount : float
        In the unit its severity is entered in. [-]
    system : str
        Units, ``us`` or ``si``.

    Returns
    -------
    list
        Number and unit.
    """
    if kind.kind not in COUNTED:
        printed = show(amount * kind.unit_in_si, kind.kind, system)
        return [printed.text, printed.unit]
    if not kind.counted_in:
        return [f"{100.0 * amount:.0f}", "%"]
    if kind.counted_in == "ft" and system == "si":
        return [f"{amount * FEET:.0f}", "m"]
    return [f"{amount:g}", kind.counted_in]
