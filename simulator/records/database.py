"""A database file, and what it complains about as one sentence for people."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import Connection, Engine
from sqlalchemy.exc import IntegrityError, SQLAlchemyError

from simulator.records import schema
from simulator.records.visit_records import RecordsError


class Database:
    """One database file, read and written in turns.

    Parameters
    ----------
    path : Path
        Of the file; made if there is none.
    """

    def __init__(self, path: Path) -> None:
        with _plainly():
            self._engine: Engine = schema.opened(path)

    def close(self) -> None:
        """Let go of the file."""
        self._engine.dispose()

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Look at what is stored.

        Yields
        ------
        Connection
            Its errors are a `RecordsError`.
        """
        with _plainly(), self._engine.connect() as connection:
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """Store all that is done or nothing.

        Yields
        ------
        Connection
            Its errors are a `RecordsError`.
        """
        with _plainly(), self._engine.begin() as connection:
            yield connection


@contextmanager
def _plainly() -> Iterator[None]:
    try:
        yield
    except IntegrityError as error:
        raise RecordsError("That stands in the records already.") from error
    except SQLAlchemyError as error:
        raise RecordsError(
            "The records are busy or cannot be read; nothing was lost, try again in a moment."
        ) from error
