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
    """

    name: str
    points: float
    of: float
    because: tuple[Because, ...]


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
