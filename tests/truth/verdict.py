"""What one check found."""

from dataclasses import dataclass
from typing import Literal

State = Literal["holds", "misses", "absent"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """One line of a table: what was asked, what came out, and where the bar stands.

    ``absent`` means that the plant has no such part to check; it counts as a miss.
    """

    id: str
    about: str
    source: str
    where: str
    expected: str
    got: str
    tolerance: str
    state: State
    note: str = ""

    @property
    def holds(self) -> bool:
        """Whether it is inside its tolerance."""
        return self.state == "holds"


def state_of(holds: object) -> State:
    """Inside or outside."""
    return "holds" if bool(holds) else "misses"
