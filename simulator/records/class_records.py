"""Classes in the database: opened by an instructor, joined by code."""

import json
import secrets
import time
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Row, insert, select, update

from simulator.records import schema
from simulator.records.database import Database
from simulator.records.visit_records import RecordsError

# Without signs that are mistaken for others when read from a board.
CODE_SIGNS = "ACDEFGHJKMNPQRTUVWXY34679"
CODE_LENGTH = 6
LONGEST_NAME = 60
LONGEST_TITLE = 80
NO_CLASS = "There is no class with this code; ask your instructor to show it again."


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassRecord:
    """A class.

    Parameters
    ----------
    id : int
        Of the row. [-]
    code : str
        By which it is joined.
    name : str
        For people.
    calls : tuple of str
        Which calls it works, by id.
    is_frozen : bool
        Whether acts are paused.
    opened_at : float
        Since 1970. [s]
    """

    id: int
    code: str
    name: str
    calls: tuple[str, ...]
    is_frozen: bool
    opened_at: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """Who joined a class.

    Parameters
    ----------
    trainee : str
        The browser's own random name.
    name : str
        As typed when joining.
    """

    trainee: str
    name: str


class ClassRecords(Database):
    """All classes in one database file."""

    def open_class(self, name: str, calls: Sequence[str]) -> ClassRecord:
        """Open a class with a fresh code.

        Parameters
        ----------
        name : str
            For people.
        calls : sequence of str
            Which calls, in order.

        Returns
        -------
        ClassRecord

        Raises
        ------
        RecordsError
            Without a name or a call, or if the database cannot be written.
        """
        title = " ".join(name.split())
        if not 1 <= len(title) <= LONGEST_TITLE:
            raise RecordsError(f"A class needs a name of 1 to {LONGEST_TITLE} characters.")
        if not calls:
            raise RecordsError("Choose at least one call for the class.")
        code = "".join(secrets.choice(CODE_SIGNS) for _ in range(CODE_LENGTH))
        with self.writing() as connection:
            connection.execute(
                insert(schema.classes).values(
                    code=code,
                    name=title,
                    calls=json.dumps(list(calls)),
                    is_frozen=0,
                    opened_at=time.time(),
                )
            )
        return self.by_code(code)

    def classes(self) -> list[ClassRecord]:
        """All classes.

        Returns
        -------
        list
            Newest first.
        """
        table = schema.classes
        with self.reading() as connection:
            rows = connection.execute(select(table).order_by(table.c.id.desc())).all()
        return [_read(row) for row in rows]

    def by_code(self, code: str) -> ClassRecord:
        """A class by its code.

        Parameters
        ----------
        code : str
            As typed: blanks and small letters are forgiven.

        Returns
        -------
        ClassRecord

        Raises
        ------
        RecordsError
            If there is none.
        """
        asked = "".join(code.split()).upper()[: CODE_LENGTH + 1]
        table = schema.classes
        with self.reading() as connection:
            row = connection.execute(select(table).where(table.c.code == asked)).one_or_none()
        if row is None:
            raise RecordsError(NO_CLASS)
        return _read(row)

    def work(self, code: str, calls: Sequence[str]) -> None:
        """Change which calls a class works.

        Parameters
        ----------
        code : str
            Of the class.
        calls : sequence of str
            All of them, in order.
        """
        table = schema.classes
        with self.writing() as connection:
            connection.execute(
                update(table).where(table.c.code == code).values(calls=json.dumps(list(calls)))
            )

    def freeze(self, code: str, is_frozen: bool) -> None:
        """Pause or go on.

        Parameters
        ----------
        code : str
            Of the class.
        is_frozen : bool
            What to do.
        """
        table = schema.classes
        with self.writing() as connection:
            connection.execute(
                update(table).where(table.c.code == code).values(is_frozen=int(is_frozen))
            )

    def join(self, code: str, trainee: str, name: str) -> ClassRecord:
        """Enter a class; who joins again changes the name only.

        Parameters
        ----------
        code : str
            Of the class.
        trainee : str
            The browser's own name.
        name : str
            By which the instructor knows the trainee.

        Returns
        -------
        ClassRecord

        Raises
        ------
        RecordsError
            For an unknown code or a name that is none.
        """
        called = " ".join(name.split())
        if not 1 <= len(called) <= LONGEST_NAME or not called.isprintable():
            raise RecordsError(
                f"Give the name your instructor knows, 1 to {LONGEST_NAME} characters."
            )
        joined = self.by_code(code)
        table = schema.members
        with self.writing() as connection:
            known = (table.c["class"] == joined.id) & (table.c.trainee == trainee)
            if connection.execute(select(table).where(known)).one_or_none() is None:
                connection.execute(
                    insert(table).values(
                        {
                            "class": joined.id,
                            "trainee": trainee,
                            "name": called,
                            "joined_at": time.time(),
                        }
                    )
                )
            else:
                connection.execute(update(table).where(known).values(name=called))
        return joined

    def of_trainee(self, trainee: str) -> list[ClassRecord]:
        """Classes that a browser has joined.

        Parameters
        ----------
        trainee : str
            The browser's own name.

        Returns
        -------
        list
            The one joined last first.
        """
        table, member = schema.classes, schema.members
        with self.reading() as connection:
            rows = connection.execute(
                select(table)
                .join(member, member.c["class"] == table.c.id)
                .where(member.c.trainee == trainee)
                .order_by(member.c.joined_at.desc())
            ).all()
        return [_read(row) for row in rows]

    def members(self, code: str) -> list[Member]:
        """Who joined.

        Parameters
        ----------
        code : str
            Of the class.

        Returns
        -------
        list
            In order of joining.
        """
        table = schema.members
        with self.reading() as connection:
            rows = connection.execute(
                select(table)
                .where(table.c["class"] == self.by_code(code).id)
                .order_by(table.c.joined_at)
            ).all()
        return [Member(trainee=row.trainee, name=row.name) for row in rows]


def _read(row: Row[Any]) -> ClassRecord:
    try:
        calls = tuple(str(call) for call in json.loads(row.calls))
    except (ValueError, TypeError) as error:
        raise RecordsError("A class in the records is damaged; it was left as it is.") from error
    return ClassRecord(
        id=row.id,
        code=row.code,
        name=row.name,
        calls=calls,
        is_frozen=bool(row.is_frozen),
        opened_at=row.opened_at,
    )
