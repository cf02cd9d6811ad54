"""On what terms a class works a call: practice or test, how long, released or held."""

import time
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, Row, Select, and_, func, insert, select

from simulator.records import schema
from simulator.records.class_records import ClassRecord, ClassRecords
from simulator.records.visit_records import RecordsError

PRACTICE, ALONE, TEST = "practice", "alone", "test"
MODES = (PRACTICE, ALONE, TEST)
SHORTEST, LONGEST = 10.0, 600.0  # site time that may be allowed, in minutes
MOST_EXTRA = 240.0  # at once, in minutes


@dataclass(frozen=True, slots=True, kw_only=True)
class Assignment:
    """Terms of one call in one class.

    Parameters
    ----------
    mode : str
        One of ``MODES``; alone is practice without the coach; a test has no coach either, and its
        scores wait until they are released.
    minutes : float or None
        Site time allowed, in minutes; None for as much as it takes.
    is_released : bool
        Whether trainees may see what a test was worth.
    extra : mapping
        Added site time by trainee, the empty name standing for everybody, in minutes.
    """

    mode: str = PRACTICE
    minutes: float | None = None
    is_released: bool = False
    extra: Mapping[str, float]

    @property
    def is_held(self) -> bool:
        """Whether trainees must not see scores yet."""
        return self.mode == TEST and not self.is_released

    def allowed(self, trainee: str) -> float | None:
        """Site time of one trainee.

        Parameters
        ----------
        trainee : str
            The browser's own name; empty for what everybody has.

        Returns
        -------
        float or None
            In minutes; None for as much as it takes.
        """
        if self.minutes is None:
            return None
        return self.minutes + sum(self.extra.get(name, 0.0) for name in {"", trainee})


class Assignments:
    """The terms of all classes; rows are only ever added.

    Parameters
    ----------
    classes : ClassRecords
        In the same file.
    """

    def __init__(self, classes: ClassRecords) -> None:
        self._classes = classes

    def assign(self, code: str, call: str, mode: str, minutes: float | None) -> None:
        """Set the terms from now on; visits already begun keep theirs.

        Parameters
        ----------
        code : str
            Of the class.
        call : str
            One that it works.
        mode : str
            One of ``MODES``.
        minutes : float or None
            Site time allowed, in minutes.

        Raises
        ------
        RecordsError
            For terms that make no sense.
        """
        if mode not in MODES:
            raise RecordsError(
                "A call is assigned as practice, with the coach or without, or as a test."
            )
        if minutes is not None and not SHORTEST <= minutes <= LONGEST:
            raise RecordsError(f"Allow {SHORTEST:.0f} to {LONGEST:.0f} minutes on site, or none.")
        self._add(self._own(code, call), call, mode, minutes, is_released=False)

    def release(self, code: str, call: str) -> None:
        """Let trainees see what their tests were worth.

        Parameters
        ----------
        code : str
            Of the class.
        call : str
            Which call.
        """
        now = self.of(code)[call] if call in self.of(code) else Assignment(extra={})
        self._add(self._own(code, call), call, now.mode, now.minutes, is_released=True)

    def extend(self, code: str, call: str, minutes: float, trainee: str = "") -> None:
        """Add site time.

        Parameters
        ----------
        code : str
            Of the class.
        call : str
            Which call.
        minutes : float
            How much more, in minutes.
        trainee : str
            Whose; empty for everybody.

        Raises
        ------
        RecordsError
            If nobody could use it.
        """
        if not 0.0 < minutes <= MOST_EXTRA:
            raise RecordsError(f"Add more than 0 and at most {MOST_EXTRA:.0f} minutes.")
        own = self._own(code, call)
        if self.of(code)[call].minutes is None:
            raise RecordsError("This call has no limit that could be extended.")
        if trainee and trainee not in {member.trainee for member in self._classes.members(code)}:
            raise RecordsError("There is no such seat in this class.")
        values = {"class": own.id, "call": call, "trainee": trainee, "minutes": minutes}
        with self._classes.writing() as connection:
            connection.execute(insert(schema.extensions).values(values | {"given_at": time.time()}))

    def of(self, code: str) -> dict[str, Assignment]:
        """Terms of every call of a class.

        Parameters
        ----------
        code : str
            Of the class.

        Returns
        -------
        dict
            By call, in the order of the class.
        """
        own = self._classes.by_code(code)
        with self._classes.reading() as connection:
            rows = connection.execute(newest().where(schema.assignments.c["class"] == own.id))
            found = {row.call: row for row in rows}
            return {call: read(connection, found.get(call)) for call in own.calls}

    def held_calls(self) -> frozenset[str]:
        """Calls that are a test somewhere whose scores are not released.

        Returns
        -------
        frozenset
            By id; on one bench nobody may look them up meanwhile.
        """
        with self._classes.reading() as connection:
            rows = connection.execute(newest()).all()
        return frozenset(r.call for r in rows if r.mode == TEST and not r.is_released)

    def note(self, connection: Connection, token: str, call: str, own: ClassRecord) -> None:
        """Keep with a new visit the terms under which it is begun.

        Parameters
        ----------
        connection : Connection
            In which the visit is counted for its class.
        token : str
            Of the visit.
        call : str
            Its call.
        own : ClassRecord
            The class it counts for.
        """
        table = schema.assignments
        mine = and_(table.c["class"] == own.id, table.c.call == call)
        last = connection.execute(select(func.max(table.c.id)).where(mine)).scalar()
        if last is not None:
            connection.execute(insert(schema.visit_terms).values(token=token, assignment=int(last)))

    def _own(self, code: str, call: str) -> ClassRecord:
        own = self._classes.by_code(code)
        if call not in own.calls:
            raise RecordsError("This class does not work that call.")
        return own

    def _add(
        self, own: ClassRecord, call: str, mode: str, minutes: float | None, *, is_released: bool
    ) -> None:
        values = {
            "class": own.id,
            "call": call,
            "mode": mode,
            "minutes": minutes,
            "is_released": int(is_released),
            "given_at": time.time(),
        }
        with self._classes.writing() as connection:
            connection.execute(insert(schema.assignments).values(values))


def newest() -> Select[Any]:
    """The terms that count now.

    Returns
    -------
    Select
        The last row of every class and call.
    """
    table = schema.assignments
    last = select(func.max(table.c.id)).group_by(table.c["class"], table.c.call)
    return select(table).where(table.c.id.in_(last))


def read(connection: Connection, row: Row[Any] | None) -> Assignment:
    """Terms from their row.

    Parameters
    ----------
    connection : Connection
        Open.
    row : Row or None
        Of ``assignments``; None where nothing was ever set.

    Returns
    -------
    Assignment
        With the site time that was added since.
    """
    if row is None:
        return Assignment(extra={})
    table = schema.extensions
    added = connection.execute(
        select(table.c.trainee, func.sum(table.c.minutes))
        .where(table.c["class"] == getattr(row, "class"), table.c.call == row.call)
        .where(table.c.given_at >= _set_at(connection, row))
        .group_by(table.c.trainee)
    )
    return Assignment(
        mode=row.mode,
        minutes=row.minutes,
        is_released=bool(row.is_released),
        extra={str(trainee): float(minutes) for trainee, minutes in added},
    )


def _set_at(connection: Connection, row: Row[Any]) -> float:
    """When the terms of a row were set; releasing them adds a row and takes no time away."""
    if not row.is_released:
        return float(row.given_at)
    table = schema.assignments
    mine = and_(table.c["class"] == getattr(row, "class"), table.c.call == row.call)
    before = and_(mine, table.c.id < row.id, table.c.is_released == 0)
    found = connection.execute(select(func.max(table.c.given_at)).where(before)).scalar()
    return float(row.given_at if found is None else found)
