"""Points that an instructor set instead of the rubric's; rows are only ever added."""

import time
from dataclasses import dataclass

from sqlalchemy import insert, select

from simulator.records import schema
from simulator.records.class_records import ClassRecords
from simulator.records.visit_records import RecordsError

SHORTEST_REASON, LONGEST_REASON = 10, 500  # signs
FULL = 100.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Override:
    """One decision.

    Parameters
    ----------
    points : float
        Out of 100. [-]
    reason : str
        In the instructor's words.
    given_at : float
        Since 1970. [s]
    """

    points: float
    reason: str
    given_at: float


class Overrides:
    """All such decisions.

    Parameters
    ----------
    classes : ClassRecords
        In the same file.
    """

    def __init__(self, classes: ClassRecords) -> None:
        self._classes = classes

    def add(self, token: str, points: float, reason: str) -> None:
        """Set the points of a visit; what stood before stays in the record.

        Parameters
        ----------
        token : str
            Of the visit.
        points : float
            Out of 100. [-]
        reason : str
            Shown with them.

        Raises
        ------
        RecordsError
            Without a reason, or for points that are none.
        """
        why = " ".join(reason.split())
        if not SHORTEST_REASON <= len(why) <= LONGEST_REASON or not why.isprintable():
            raise RecordsError(
                f"Give the trainee a reason of {SHORTEST_REASON} to {LONGEST_REASON} characters."
            )
        if not 0.0 <= points <= FULL:
            raise RecordsError("Points go from 0 to 100.")
        values = {"token": token, "points": points, "reason": why, "given_at": time.time()}
        with self._classes.writing() as connection:
            connection.execute(insert(schema.overrides).values(values))

    def of(self, token: str) -> list[Override]:
        """What was decided on a visit.

        Parameters
        ----------
        token : str
            Of the visit.

        Returns
        -------
        list
            Oldest first; the last one counts.
        """
        table = schema.overrides
        with self._classes.reading() as connection:
            rows = connection.execute(
                select(table).where(table.c.token == token).order_by(table.c.id)
            ).all()
        return [
            Override(points=row.points, reason=row.reason, given_at=row.given_at) for row in rows
        ]
