"""What has happened on a visit; the list of these is the only truth about it."""

from dataclasses import dataclass

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
    sizes : tuple
        How large each cause is, nothing where that was not said; empty in records from before it
        was asked.
    """

    causes: tuple[str, ...]
    cited: tuple[int, ...]
    sizes: tuple[str, ...] = ()

    def size_of(self, cause: str) -> str:
        """How large a cause was said to be.

        Parameters
        ----------
        cause : str
            Its code.

        Returns
        -------
        str
            Empty where nothing was said of it.
        """
        return dict(zip(self.causes, self.sizes, strict=False)).get(cause, "")


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
class Hinted(_Happening):
    """The coach was asked, which takes no site time.

    Parameters
    ----------
    rung : int
        How far the coach went: 1 asks, 2 points, 3 tells a healthy value, 4 works a step. [-]
    about : str
        Code of the reading, the preparation or the act it was about.
    said, said_si : tuple
        Sentences, stored as told, in US units and in SI; the second is empty in records from
        before both were stored.
    """

    rung: int
    about: str
    said: tuple[str, ...]
    said_si: tuple[str, ...] = ()

    def told(self, system: str) -> tuple[str, ...]:
        """The sentences in one system of units.

        Parameters
        ----------
        system : str
            Units, ``us`` or ``si``.

        Returns
        -------
        tuple
            As they were told where only that is stored.
        """
        return (self.said_si if system == "si" else self.said) or self.said


@dataclass(frozen=True, slots=True, kw_only=True)
class Probed(_Happening):
    """What was thought likeliest, when the page asked; it takes no site time.

    Parameters
    ----------
    causes : tuple
        Codes, two at most; none where the question was put aside.
    shares : tuple
        How likely each was thought, 1 for certain. [-]
    """

    causes: tuple[str, ...]
    shares: tuple[float, ...]


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
    | Hinted
    | Probed
    | Closed
)
