"""What every repair is."""

from dataclasses import dataclass
from typing import ClassVar

from simulator.plant.installation import Installation


@dataclass(frozen=True, slots=True)
class Repair:
    """One service act.

    Parameters
    ----------
    amount : float
        In SI, for acts that have one; 0 otherwise.
    """

    amount: float = 0.0

    title: ClassVar[str]
    minutes: ClassVar[float]
    caution: ClassVar[str | None] = None
    # What the act costs or cannot undo, said before it is done.
    consequence: ClassVar[str]
    # Name and kind of the amount, smallest and largest in SI; None where there is none.
    amount_name: ClassVar[str | None] = None
    amount_kind: ClassVar[str] = "mass"
    low: ClassVar[float] = 0.0
    high: ClassVar[float] = 0.0
    # Steady readings of the refrigerant side are only to be had again after this.
    disturbs_charge: ClassVar[bool] = False

    def applied_to(self, installation: Installation) -> Installation:
        """The installation after the act.

        Parameters
        ----------
        installation : Installation
            Left as it is.

        Returns
        -------
        Installation
            Better, worse or the same: the plant decides.
        """
        raise TypeError(f"{type(self).__name__} does not say what it does")
