"""What trainees wrote to themselves in a debrief: added, read back, never graded."""

import time

from sqlalchemy import insert, select

from simulator.records import schema
from simulator.records.class_records import ClassRecords
from simulator.records.visit_records import RecordsError

LONGEST = 2000  # signs


class Reflections:
    """All such answers.

    Parameters
    ----------
    classes : ClassRecords
        In the same file.
    """

    def __init__(self, classes: ClassRecords) -> None:
        self._classes = classes

    def add(self, token: str, question: str, text: str) -> None:
        """Keep an answer; earlier ones stay in the record.

        Parameters
        ----------
        token : str
            Of the visit.
        question : str
            As it was asked.
        text : str
            As typed.

        Raises
        ------
        RecordsError
            If nothing was typed, or too much.
        """
        written = text.strip()
        if not 1 <= len(written) <= LONGEST:
            raise RecordsError(f"Write 1 to {LONGEST:,} characters, then keep them.")
        values = {"token": token, "question": question, "text": written, "given_at": time.time()}
        with self._classes.writing() as connection:
            connection.execute(insert(schema.reflections).values(values))

    def newest(self, token: str) -> str:
        """The last answer of a visit.

        Parameters
        ----------
        token : str
            Of the visit.

        Returns
        -------
        str
            Empty where there is none.
        """
        table = schema.reflections
        with self._classes.reading() as connection:
            found = connection.execute(
                select(table.c.text).where(table.c.token == token).order_by(table.c.id.desc())
            ).first()
        return "" if found is None else str(found.text)

    def answers(self, token: str) -> list[tuple[str, str]]:
        """Everything written in the debrief of a visit.

        Parameters
        ----------
        token : str
            Of the visit.

        Returns
        -------
        list of tuple of str
            Question and answer, as they were kept.
        """
        table = schema.reflections
        with self._classes.reading() as connection:
            rows = connection.execute(
                select(table.c.question, table.c.text)
                .where(table.c.token == token)
                .order_by(table.c.id)
            ).all()
        return [(str(row.question), str(row.text)) for row in rows]
