"""What a trainee may ask for on site; nothing has happened yet."""

from dataclasses import dataclass

MARKS = ("open", "likely", "ruled_out")


@dataclass(frozen=True, slots=True, kw_only=True)
class GoTo:
    """Walk to another place.

    Parameters
    ----------
    place : str
        Its id.
    """

    place: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Prepare:
    """Do a preparation.

    Parameters
    ----------
    step : str
        Its id.
    """

    step: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """Measure, look, feel or ask.

    Parameters
    ----------
    measurement, technique : str
        What is taken and how.
    """

    measurement: str
    technique: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StartSystem:
    """Call for cooling, well below the room so that it will not cycle."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StopSystem:
    """Switch the system off and secure it against being switched on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wait:
    """Let time pass.

    Parameters
    ----------
    minutes : float
        Of site time, in minutes.
    """

    minutes: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """Note what is thought of one cause; costs no time.

    Parameters
    ----------
    cause : str
        Its code.
    mark : str
        One of ``MARKS``.
    """

    cause: str
    mark: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Declare:
    """State the finding and the readings it rests on.

    Parameters
    ----------
    causes : tuple
        Codes.
    cited : tuple
        Numbers of the readings on the sheet.
    sizes : tuple
        How large each cause is; nothing for one where that is not said. All or none are given.
    """

    causes: tuple[str, ...]
    cited: tuple[int, ...]
    sizes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Repair:
    """Carry out a service act.

    Parameters
    ----------
    repair : str
        Its code.
    amount : float, optional
        For acts that have one, in SI. [kg]
    """

    repair: str
    amount: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WriteUp:
    """Write the record that stays with the customer.

    Parameters
    ----------
    text : str
        As typed.
    """

    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Probe:
    """Say which causes are thought likeliest; costs no time.

    Parameters
    ----------
    causes : tuple
        Codes, two at most; none puts the question aside.
    shares : tuple
        How likely each is thought, 1 for certain. [-]
    """

    causes: tuple[str, ...]
    shares: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Close:
    """Leave the site; nothing can be done after it."""


Action = (
    GoTo
    | Prepare
    | Measure
    | StartSystem
    | StopSystem
    | Wait
    | Mark
    | Declare
    | Repair
    | WriteUp
    | Probe
    | Close
)
