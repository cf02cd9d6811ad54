"""The language of the page a visit was begun from: whether a call is as fair in each."""

from collections.abc import Sequence

from sqlalchemy import select
from sqlalchemy.dialects.sqlite import insert

from simulator.records import schema
from simulator.records.class_records import ClassRecords


class VisitLanguages:
    """All such notes.

    Parameters
    ----------
    classes : ClassRecords
        In the same file.
    """

    def __init__(self, classes: ClassRecords) -> None:
        self._classes = classes

    def note(self, token: str, language: str) -> None:
        """Keep it, once and for all.

        Parameters
        ----------
        token : str
            Of the visit, already stored.
        language : str
            Its code.
        """
        values = {"token": token, "language": language}
        with self._classes.writing() as connection:
            connection.execute(
                insert(schema.visit_languages).values(values).on_conflict_do_nothing()
            )

    def of(self, tokens: Sequence[str]) -> dict[str, str]:
        """The languages of visits.

        Parameters
        ----------
        tokens : sequence of str
            Of the visits.

        Returns
        -------
        dict
            Code by token; visits of which it was never noted are left out.
        """
        table = schema.visit_languages
        with self._classes.reading() as connection:
            rows = connection.execute(select(table).where(table.c.token.in_(tokens))).all()
        return {str(row.token): str(row.language) for row in rows}
