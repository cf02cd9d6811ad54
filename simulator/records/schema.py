"""The tables of the records, and how the database is opened."""

import sqlite3
import time
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
    insert,
)
from sqlalchemy.dialects import sqlite
from sqlalchemy.schema import CreateIndex, CreateTable

WAIT = 10.0  # for another page that is writing [s]
CACHE = 128  # of the file, in each page that has it open; the system keeps the rest [KiB]

metadata = MetaData()


def _row_number() -> Column[int]:
    return Column("id", Integer, primary_key=True, autoincrement=True)


def _of_class() -> Column[int]:
    return Column("class", Integer, ForeignKey("classes.id"), nullable=False, index=True)


def _given_at() -> Column[float]:
    return Column("given_at", Float, nullable=False)


visits = Table(
    "visits",
    metadata,
    _row_number(),
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

classes = Table(
    "classes",
    metadata,
    _row_number(),
    Column("code", String(12), nullable=False, unique=True),
    Column("name", String(80), nullable=False),
    Column("calls", Text, nullable=False),
    Column("is_frozen", Integer, nullable=False),
    Column("opened_at", Float, nullable=False),
)

members = Table(
    "members",
    metadata,
    Column("class", Integer, ForeignKey("classes.id"), primary_key=True),
    Column("trainee", String(64), primary_key=True),
    Column("name", String(60), nullable=False),
    Column("joined_at", Float, nullable=False),
)

class_visits = Table(
    "class_visits",
    metadata,
    Column("token", String(64), ForeignKey("visits.token"), primary_key=True),
    _of_class(),
)

# What was assigned, row upon row: the newest of a class and call counts, none means practice.
assignments = Table(
    "assignments",
    metadata,
    _row_number(),
    _of_class(),
    Column("call", String(40), nullable=False),
    Column("mode", String(10), nullable=False),
    Column("minutes", Float, nullable=True),
    Column("is_released", Integer, nullable=False),
    _given_at(),
)

# A visit keeps the terms under which it was begun.
visit_terms = Table(
    "visit_terms",
    metadata,
    Column("token", String(64), ForeignKey("visits.token"), primary_key=True),
    Column("assignment", Integer, ForeignKey("assignments.id"), nullable=False),
)

# Faults of the test stand that a link holds and does not tell.
sealed_faults = Table(
    "sealed_faults",
    metadata,
    _row_number(),
    Column("code", String(12), nullable=False, unique=True),
    Column("faults", Text, nullable=False),
    _given_at(),
)

# Which version of its call a visit is; none stands for the call itself.
visit_versions = Table(
    "visit_versions",
    metadata,
    Column("token", String(64), ForeignKey("visits.token"), primary_key=True),
    Column("version", Integer, nullable=False),
)

# In which language the page spoke from which a visit was begun.
visit_languages = Table(
    "visit_languages",
    metadata,
    Column("token", String(64), ForeignKey("visits.token"), primary_key=True),
    Column("language", String(8), nullable=False),
)

# Whether each trainee gets a version of their own; the newest of a class and call counts.
version_choices = Table(
    "version_choices",
    metadata,
    _row_number(),
    _of_class(),
    Column("call", String(40), nullable=False),
    Column("is_own", Integer, nullable=False),
    _given_at(),
)

extensions = Table(
    "extensions",
    metadata,
    _row_number(),
    _of_class(),
    Column("call", String(40), nullable=False),
    # Empty for the whole class.
    Column("trainee", String(64), nullable=False),
    Column("minutes", Float, nullable=False),
    _given_at(),
)

overrides = Table(
    "overrides",
    metadata,
    _row_number(),
    Column("token", String(64), ForeignKey("visits.token"), nullable=False, index=True),
    Column("points", Float, nullable=False),
    Column("reason", Text, nullable=False),
    _given_at(),
)

# What a trainee wrote in a debrief, row upon row; never graded.
reflections = Table(
    "reflections",
    metadata,
    _row_number(),
    Column("token", String(64), ForeignKey("visits.token"), nullable=False, index=True),
    Column("question", Text, nullable=False),
    Column("text", Text, nullable=False),
    _given_at(),
)

# What closed visits were worth, worked out once: odds take seconds, and one number must stand.
graded_visits = Table(
    "graded_visits",
    metadata,
    Column("token", String(64), ForeignKey("visits.token"), primary_key=True),
    Column("rubric", String(10), nullable=False),
    Column("card", Text, nullable=False),
    _given_at(),
)

# When acts were stored, by this computer's clock; events themselves know site time only.
act_times = Table(
    "act_times",
    metadata,
    Column("visit", Integer, ForeignKey("visits.id"), primary_key=True),
    Column("seq", Integer, primary_key=True, autoincrement=False),
    Column("stored_at", Float, nullable=False),
)

lesson_answers = Table(
    "lesson_answers",
    metadata,
    _row_number(),
    Column("trainee", String(64), nullable=False, index=True),
    Column("lesson", String(60), nullable=False),
    Column("part", String(40), nullable=False),
    Column("question", String(40), nullable=False),
    Column("answer", Text, nullable=False),
    Column("is_right", Integer, nullable=False),
    _given_at(),
)

instructors = Table(
    "instructors",
    metadata,
    _row_number(),
    Column("hash", String(200), nullable=False),
    Column("set_at", Float, nullable=False),
)

# What every act stores, as SQL: to work that out takes a kernel more memory than many acts do.
_NAMED = sqlite.dialect(paramstyle="named")
ADD_EVENT = str(insert(events).compile(dialect=_NAMED))
ADD_TIME = str(insert(act_times).compile(dialect=_NAMED))


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
    connection.text_factory = _text
    cursor = connection.cursor()
    _use_log(cursor)
    for setting in ("synchronous=NORMAL", "foreign_keys=ON", f"cache_size=-{CACHE}"):
        cursor.execute(f"PRAGMA {setting}")
    cursor.close()


def _use_log(cursor: Any) -> None:
    """Switch to a write-ahead log; SQLite itself does not wait for others that switch."""
    until = time.monotonic() + WAIT
    while True:
        try:
            cursor.execute("PRAGMA journal_mode=WAL")
            return
        except sqlite3.OperationalError as error:
            if error.sqlite_errorcode != sqlite3.SQLITE_BUSY or time.monotonic() > until:
                raise
            time.sleep(0.02)


def _text(stored: bytes) -> str | bytes:
    """A stored text; what is none stays as it is, so that only its own row is damaged."""
    try:
        return stored.decode("utf-8")
    except UnicodeDecodeError:
        return stored
