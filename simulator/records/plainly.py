"""What a database complains about, as one sentence for people."""

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy.exc import IntegrityError, SQLAlchemyError

from simulator.records.visit_records import RecordsError


@contextmanager
def plainly() -> Iterator[None]:
    """Turn what the database raises into a sentence.

    Raises
    ------
    RecordsError
        Instead of any error of the database.
    """
    try:
        yield
    except IntegrityError as error:
        raise RecordsError("That stands in the records already.") from error
    except SQLAlchemyError as error:
        raise RecordsError(
            "The records are busy or cannot be read; nothing was lost, try again in a moment."
        ) from error
