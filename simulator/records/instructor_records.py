"""The instructor's password, as a hash and never itself."""

import time
from pathlib import Path

from sqlalchemy import Engine, insert, select

from simulator.records import schema
from simulator.records.plainly import plainly


class InstructorRecords:
    """The password in one database file.

    Parameters
    ----------
    path : Path
        Of the file; made if there is none.
    """

    def __init__(self, path: Path) -> None:
        with plainly():
            self._engine: Engine = schema.opened(path)

    def close(self) -> None:
        """Let go of the file."""
        self._engine.dispose()

    def password_hash(self) -> str | None:
        """The instructor's password as it is kept.

        Returns
        -------
        str or None
            None where none was ever set.
        """
        table = schema.instructors
        with plainly(), self._engine.connect() as connection:
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
        with plainly(), self._engine.begin() as connection:
            connection.execute(insert(schema.instructors).values(hash=hashed, set_at=time.time()))
