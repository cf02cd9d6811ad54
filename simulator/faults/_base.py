"""What every fault says about itself, and a fault of some size."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from simulator.plant.installation import Installation
from simulator.quantities.kinds import KINDS

Severity: TypeAlias = float  # in SI of the fault's own measure; 0 changes nothing
Family = Literal["Indoor air", "Ducts and house", "Electrical", "Outdoor air", "Refrigerant"]
Mode = Literal["cooling", "heating"]
Metering = Literal["txv", "orifice"]
# What a reading does under the fault. ``moved``: either way, by the metering device.
# ``seen``: the words change. ``beside``: it claims nothing; another is judged against it.
Sign = Literal["up", "down", "flat", "moved", "seen", "beside"]
Evidence: TypeAlias = tuple[Sign, float]
COUNTED = ("fraction", "ratio")  # kinds that are plain numbers inside and at the edge


@dataclass(frozen=True, slots=True, kw_only=True)
class FaultKind:
    """All there is to know about one fault; each file of the folder holds one as ``FAULT``.

    Parameters
    ----------
    id : str
        The file's name.
    title : str
        For people.
    cause : str, optional
        Its wording in the list of causes, where the title does not serve there.
    family : str
        Where the list of causes has it.
    why : str
        How it does what it does, for the debrief.
    apply : callable
        A worse installation from an installation and a severity in SI. It is pure and changes
        physical parameters only.
    measure : str
        What its severity counts.
    kind : str
        Of quantity; people enter it in that kind's customary unit, fractions as 0 to 1.
    counted_in : str, optional
        What one of a ratio is called.
    low, high : float
        Range met in the field, in that unit. [-]
    typical : float
        A middling case, in that unit. [-]
    is_all_or_nothing : bool
        Whether it has no degrees: it is there from some severity on.
    modes : tuple
        In which it shows.
    metering : tuple
        Devices it applies to.
    prior : float
        How often it is met, over how often a loaded filter is; common practice, no source. [-]
    hazards : tuple
        Preparations that meet its dangers.
    evidence : mapping
        What each measurement does, and how much that bears on the fault; weights that sum to 1
        carry a reversible repair. [-]
    repairs : tuple
        Acts without an amount, each of which mends it alone.
    """

    id: str
    title: str
    cause: str = ""
    family: Family
    why: str
    apply: Callable[[Installation, Severity], Installation]
    measure: str
    kind: str = "fraction"
    counted_in: str = ""
    low: float = 0.0
    high: float
    typical: float
    is_all_or_nothing: bool = False
    modes: tuple[Mode, ...] = ("cooling",)
    metering: tuple[Metering, ...] = ("txv", "orifice")
    prior: float
    hazards: tuple[str, ...] = ()
    evidence: Mapping[str, Evidence]
    repairs: tuple[str, ...]

    @property
    def unit(self) -> str:
        """Unit people enter its severity in.

        Returns
        -------
        str
            A dash for a fraction.
        """
        return self.counted_in or "-" if self.kind in COUNTED else KINDS[self.kind].us.unit

    @property
    def unit_in_si(self) -> float:
        """One of that unit in SI.

        Returns
        -------
        float
            [-]
        """
        return 1.0 if self.kind in COUNTED else KINDS[self.kind].us.scale


@dataclass(frozen=True, slots=True)
class Fault:
    """A fault of some size.

    Parameters
    ----------
    kind : FaultKind
        Which.
    severity : float
        In SI of the fault's own measure; 0 changes nothing.
    """

    kind: FaultKind = field(repr=False)
    severity: float

    def applied_to(self, installation: Installation) -> Installation:
        """The installation with this fault in it.

        Parameters
        ----------
        installation : Installation
            Left as it is.

        Returns
        -------
        Installation
            Changed in physical parameters only.
        """
        return self.kind.apply(installation, self.severity)
