"""Visits in the database: opened, added to, read back; never changed."""

import json
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, Row, func, insert, select
from sqlalchemy.exc import IntegrityError, OperationalError, SQLAlchemyError

from simulator.calls.event_storage import kind, payload, restored
from simulator.calls.events import Event
from simulator.records import schema
from simulator.records.known_names import require_known

FIRST_NUMBER = 1000


class RecordsError(ValueError):
    """The records cannot be used as asked, in one sentence."""


class MovedOn(RecordsError):
    """Another page has added to the visit since it was read."""


@dataclass(frozen=True, slots=True, kw_only=True)
class VisitRecord:
    """What is stored of a visit beside its events.

    Parameters
    ----------
    token : str
        In the page's address.
    number : str
        For people.
    call : str
        Which call.
    seed : int
        Of its chance; stays on the server.
    trainee : str
        Whose it is.
    is_served : bool
        Whether it was begun on the server's own pages.
    engine_version : str
        Of the program that opened it.
    """

    token: str
    number: str
    call: str
    seed: int
    trainee: str
    is_served: bool
    engine_version: str


class VisitRecords:
    """All visits in one database file.

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

    def add(self, record: VisitRecord, first: Event, *, opened_at: float) -> None:
        """Open a visit.

        Parameters
        ----------
        record : VisitRecord
            Its number is given here and the one in it is ignored.
        first : Event
            Its arrival.
        opened_at : float
            Since 1970. [s]
        """
        with _plainly(), self._engine.begin() as connection:
            made = connection.execute(
                insert(schema.visits).values(
                    token=record.token,
                    call=record.call,
                    seed=str(record.seed),
                    trainee=record.trainee,
                    is_served=int(record.is_served),
                    engine_version=record.engine_version,
                    opened_at=opened_at,
                )
            )
            row = made.inserted_primary_key
            assert row is not None  # noqa: S101 - a table with a key always gives one
            connection.exec_driver_sql(schema.ADD_EVENT, _stored(int(row[0]), first))

    def append(self, token: str, added: Sequence[Event]) -> None:
        """Store what happened, all of it or nothing.

        Parameters
        ----------
        token : str
            Of the visit.
        added : sequence
            Events that follow those stored.

        Raises
        ------
        MovedOn
            If one of their numbers is taken already.
        RecordsError
            If the visit is unknown or the database cannot be written.
        """
        if not added:
            return
        with _plainly(), self._engine.begin() as connection:
            visit, seq = _row(connection, token).id, added[-1].seq
            connection.exec_driver_sql(schema.ADD_EVENT, [_stored(visit, event) for event in added])
            stored = {"visit": visit, "seq": seq, "stored_at": time.time()}
            connection.exec_driver_sql(schema.ADD_TIME, stored)

    def record(self, token: str) -> VisitRecord:
        """What is stored of a visit.

        Parameters
        ----------
        token : str
            Of the visit.

        Returns
        -------
        VisitRecord

        Raises
        ------
        RecordsError
            If there is no such visit or it cannot be read.
        """
        with _plainly(), self._engine.connect() as connection:
            row = _row(connection, token)
        with _soundly():
            return _read(row)

    def events(self, token: str) -> list[Event]:
        """Everything that happened on a visit.

        Parameters
        ----------
        token : str
            Of the visit.

        Returns
        -------
        list
            Oldest first.

        Raises
        ------
        RecordsError
            If there is no such visit or an entry is damaged.
        """
        table = schema.events
        with _plainly(), self._engine.connect() as connection:
            mine = table.c.visit == _row(connection, token).id
            rows = connection.execute(select(table).where(mine).order_by(table.c.seq)).all()
        with _soundly():
            found = [
                restored(row.seq, row.kind, row.minute, json.loads(_sound(row.payload)))
                for row in rows
            ]
            require_known(found)
        if not found or [event.seq for event in found] != list(range(len(found))):
            raise RecordsError("This visit has gaps in its record and cannot be continued.")
        return found

    def last_day(self, token: str) -> str:
        """The day of the last act of a visit; of its opening without one.

        Parameters
        ----------
        token : str
            Of the visit.

        Returns
        -------
        str
            Such as 2026-05-31, by this computer's clock.
        """
        table = schema.act_times
        with _plainly(), self._engine.connect() as connection:
            visit = _row(connection, token)
            last = connection.execute(
                select(func.max(table.c.stored_at)).where(table.c.visit == visit.id)
            ).scalar()
        at = float(visit.opened_at if last is None else last)
        return datetime.fromtimestamp(at, tz=UTC).astimezone().date().isoformat()

    def of_trainee(self, trainee: str) -> list[VisitRecord]:
        """All visits of one trainee.

        Parameters
        ----------
        trainee : str
            The browser's own name.

        Returns
        -------
        list
            Newest first; one that cannot be read is left out.
        """
        table = schema.visits
        with _plainly(), self._engine.connect() as connection:
            rows = connection.execute(
                select(table).where(table.c.trainee == trainee).order_by(table.c.id.desc())
            ).all()
        found = []
        for row in rows:
            with suppress(RecordsError), _soundly():
                found.append(_read(row))
        return found


def _row(connection: Connection, token: str) -> Row[Any]:
    table = schema.visits
    row = connection.execute(select(table).where(table.c.token == token)).one_or_none()
    if row is None:
        raise RecordsError("There is no visit at this address; start one from the home page.")
    return row


def _read(row: Row[Any]) -> VisitRecord:
    return VisitRecord(
        token=row.token,
        number=f"B-{FIRST_NUMBER + row.id}",
        call=_sound(row.call),
        seed=int(_sound(row.seed)),
        trainee=row.trainee,
        is_served=bool(row.is_served),
        engine_version=_sound(row.engine_version),
    )


def _sound(stored: object) -> str:
    if not isinstance(stored, str):
        raise TypeError("not a text")
    return stored


def _stored(visit: int, event: Event) -> dict[str, Any]:
    return {
        "visit": visit,
        "seq": event.seq,
        "kind": kind(event),
        "minute": event.minute,
        "payload": json.dumps(payload(event), ensure_ascii=False, allow_nan=False),
    }


@contextmanager
def _plainly() -> Iterator[None]:
    """What the database complains about, as one sentence for people."""
    try:
        yield
    except IntegrityError:
        raise MovedOn(
            "This visit was moved on from another page; here is where it stands now."
        ) from None
    except OperationalError as error:
        raise RecordsError(
            "The records are busy or cannot be written; nothing was lost, try again in a moment."
        ) from error
    except SQLAlchemyError as error:
        raise RecordsError(
            "The file of visits is damaged and was left as it is; ask whoever runs the server."
        ) from error


@contextmanager
def _soundly() -> Iterator[None]:
    """What cannot be read of a visit, whatever is wrong with it, as one sentence for people."""
    try:
        yield
    except (ValueError, TypeError, RecursionError) as error:
        raise RecordsError(
            "An entry of this visit is damaged; the record was left as it is."
        ) from error
