"""The instructor's password, as a hash and never itself."""

import time

from sqlalchemy import insert, select

from simulator.records import schema
from simulator.records.database import Database


class InstructorRecords(Database):
    """The password in one database file."""

    def password_hash(self) -> str | None:
        """The instructor's password as it is kept.

        Returns
        -------
        str or None
            None where none was ever set.
        """
        table = schema.instructors
        with self.reading() as connection:
            row = connection.execute(
                select(table).order_by(table.c.id.desc()).limit(1)
            ).one_or_none()
        return None if row is None else str(row.hash)

    def set_password_hash(self, hashed: str) -> None:
        """Keep a new password; it counts from now on.

        Parameters
        ----------
        hashed : str
            Never the password itself.
        """
        with self.writing() as connection:
            connection.execute(insert(schema.instructors).values(hash=hashed, set_at=time.time()))
