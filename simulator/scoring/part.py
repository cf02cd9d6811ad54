"""One part of a scorecard."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Because:
    """Why points were given or kept back.

    Parameters
    ----------
    text : str
        A sentence.
    seq : int, optional
        The event behind it.
    """

    text: str
    seq: int | None = None


@dataclass(frozen=True, slots=True)
class Part:
    """One part.

    Parameters
    ----------
    name : str
        For people.
    points, of : float
        Given, and at most. [-]
    because : tuple
        Reasons.
    is_open : bool
        Whether its points are still being worked out.
    """

    name: str
    points: float
    of: float
    because: tuple[Because, ...]
    is_open: bool = False


def part(name: str, points: float, of: float, because: list[Because]) -> Part:
    """A part with its points held between nothing and all.

    Parameters
    ----------
    name : str
        For people.
    points, of : float
        Earned, and at most. [-]
    because : list
        Reasons.

    Returns
    -------
    Part
    """
    return Part(name, round(min(max(points, 0.0), of), 1), of, tuple(because))


def open_part(name: str, of: float) -> Part:
    """A part whose points wait for the odds.

    Parameters
    ----------
    name : str
        For people.
    of : float
        At most. [-]

    Returns
    -------
    Part
    """
    return Part(name, 0.0, of, (), is_open=True)
