"""The tables of the records, and how the database is opened."""

from pathlib import Path
from typing import Any

from sqlalchemy import (
    Column,
    Engine,
    Float,
    ForeignKey,
    Integer,
    MetaData,
    String,
    Table,
    Text,
    create_engine,
    event,
)
from sqlalchemy.schema import CreateIndex, CreateTable

WAIT = 10.0  # for another page that is writing [s]

metadata = MetaData()

visits = Table(
    "visits",
    metadata,
    Column("id", Integer, primary_key=True, autoincrement=True),
    Column("token", String(64), nullable=False, unique=True),
    Column("call", String(40), nullable=False),
    # The visit's chance: random, never derived from the number and never on the wire.
    Column("seed", String(40), nullable=False),
    Column("trainee", String(64), nullable=False, index=True),
    # A free notebook can read anything, so what is done in one is no assessment.
    Column("is_served", Integer, nullable=False),
    Column("engine_version", String(40), nullable=False),
    Column("opened_at", Float, nullable=False),
)

events = Table(
    "events",
    metadata,
    Column("visit", Integer, ForeignKey("visits.id"), primary_key=True),
    # With the visit it is the key, so an act that is sent twice cannot be stored twice.
    Column("seq", Integer, primary_key=True, autoincrement=False),
    Column("kind", String(40), nullable=False),
    Column("minute", Float, nullable=False),
    Column("payload", Text, nullable=False),
)


def opened(path: Path) -> Engine:
    """The database, its tables made if it is new.

    Parameters
    ----------
    path : Path
        Of the SQLite file.

    Returns
    -------
    Engine
    """
    engine = create_engine(f"sqlite:///{path}", connect_args={"timeout": WAIT})
    event.listen(engine, "connect", _set_up)
    # Looking first and making then would fail where two pages open a new file at once.
    with engine.begin() as connection:
        for table in metadata.sorted_tables:
            connection.execute(CreateTable(table, if_not_exists=True))
            for index in table.indexes:
                connection.execute(CreateIndex(index, if_not_exists=True))
    return engine


def _set_up(connection: Any, record: object) -> None:
    """A reader never waits for a writer, and a killed kernel loses no committed event."""
    del record
    cursor = connection.cursor()
    for setting in ("journal_mode=WAL", "synchronous=NORMAL", "foreign_keys=ON"):
        cursor.execute(f"PRAGMA {setting}")
    cursor.close()
