"""What closed visits were worth, once it has been worked out; a stored result never changes."""

import json
import time
from typing import Any

from sqlalchemy import select
from sqlalchemy.dialects.sqlite import insert

from simulator.records import schema
from simulator.records.class_records import ClassRecords


class GradedVisits:
    """All such results.

    Parameters
    ----------
    classes : ClassRecords
        In the same file.
    """

    def __init__(self, classes: ClassRecords) -> None:
        self._classes = classes

    def add(self, token: str, rubric: str, card: dict[str, Any]) -> None:
        """Store a result; the first one stays where two were worked out at once.

        Parameters
        ----------
        token : str
            Of the visit.
        rubric : str
            Version of the rubric.
        card : dict
            Plain data.
        """
        values = {
            "token": token,
            "rubric": rubric,
            "card": json.dumps(card, ensure_ascii=False, allow_nan=False),
            "given_at": time.time(),
        }
        with self._classes.writing() as connection:
            connection.execute(insert(schema.graded_visits).values(values).on_conflict_do_nothing())

    def of(self, token: str) -> dict[str, Any] | None:
        """The result of a visit.

        Parameters
        ----------
        token : str
            Of the visit.

        Returns
        -------
        dict or None
            None where it was not worked out yet, or cannot be read.
        """
        table = schema.graded_visits
        with self._classes.reading() as connection:
            row = connection.execute(select(table).where(table.c.token == token)).one_or_none()
        try:
            found = None if row is None else json.loads(row.card)
        except (ValueError, TypeError):
            return None
        return found if isinstance(found, dict) else None
