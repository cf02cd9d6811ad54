"""Which visits count for which class."""

from dataclasses import dataclass

from sqlalchemy import func, insert, select

from simulator.records import schema
from simulator.records.assignments import PRACTICE, TEST, Assignments, newest, read
from simulator.records.class_records import ClassRecords


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """What the class of a visit asks of it.

    Parameters
    ----------
    is_in_class : bool
        Whether there is a class at all.
    is_frozen : bool
        Whether acts are paused.
    is_test : bool
        Whether there is no coaching.
    is_held : bool
        Whether its scores wait for the instructor.
    is_coached : bool
        Whether hints may be had.
    allowed : float or None
        Site time, in minutes; None for as much as it takes.
    beside : str
        Name of the class that its trainee is in and that this visit does not count for.
    """

    is_in_class: bool = False
    is_frozen: bool = False
    is_test: bool = False
    is_held: bool = False
    is_coached: bool = True
    allowed: float | None = None
    beside: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pulse:
    """How far a visit has been stored.

    Parameters
    ----------
    token, trainee : str
        Which visit, and whose.
    count : int
        Events stored. [-]
    stored_at : float
        The last of them, or the opening, since 1970. [s]
    """

    token: str
    trainee: str
    count: int
    stored_at: float


class ClassVisits:
    """The visits of all classes.

    Parameters
    ----------
    classes : ClassRecords
        In the same file.
    """

    def __init__(self, classes: ClassRecords) -> None:
        self._classes = classes

    def note(self, token: str, call: str, trainee: str) -> None:
        """Count a visit for the class joined last that works this call.

        Parameters
        ----------
        token : str
            Of the visit, already stored.
        call : str
            Its call.
        trainee : str
            Whose it is.
        """
        own = next((one for one in self._classes.of_trainee(trainee) if call in one.calls), None)
        if own is None:
            return
        with self._classes.writing() as connection:
            connection.execute(
                insert(schema.class_visits).values({"token": token, "class": own.id})
            )
            Assignments(self._classes).note(connection, token, call, own)

    def tokens(self, code: str) -> list[str]:
        """Visits that count for a class.

        Parameters
        ----------
        code : str
            Of the class.

        Returns
        -------
        list of str
            Their tokens, oldest first.
        """
        table, visit = schema.class_visits, schema.visits
        with self._classes.reading() as connection:
            rows = connection.execute(
                select(table.c.token)
                .join(visit, visit.c.token == table.c.token)
                .where(table.c["class"] == self._classes.by_code(code).id)
                .order_by(visit.c.id)
            ).all()
        return [row.token for row in rows]

    def pulses(self, code: str) -> list[Pulse]:
        """How far each visit of a class has come, in one look.

        Parameters
        ----------
        code : str
            Of the class.

        Returns
        -------
        list
            Oldest visit first.
        """
        of, visit, act = schema.class_visits, schema.visits, schema.events
        stored = schema.act_times
        count = (
            select(func.count()).where(act.c.visit == visit.c.id).correlate(visit).scalar_subquery()
        )
        last = (
            select(func.max(stored.c.stored_at))
            .where(stored.c.visit == visit.c.id)
            .correlate(visit)
            .scalar_subquery()
        )
        query = (
            select(visit.c.token, visit.c.trainee, visit.c.opened_at, count, last)
            .join(of, visit.c.token == of.c.token)
            .where(of.c["class"] == self._classes.by_code(code).id)
            .order_by(visit.c.id)
        )
        with self._classes.reading() as connection:
            rows = connection.execute(query).all()
        return [
            Pulse(token=token, trainee=trainee, count=number, stored_at=at or opened)
            for token, trainee, opened, number, at in rows
        ]

    def standing(self, token: str) -> Standing:
        """What the class of a visit asks of it.

        Parameters
        ----------
        token : str
            Of the visit.

        Returns
        -------
        Standing
            Free of everything for a visit of no class, unless others are tested with its
            call: then it is held.
        """
        visit, of, own = schema.visits, schema.class_visits, schema.classes
        with self._classes.reading() as connection:
            row = connection.execute(
                select(visit.c.trainee, visit.c.call, own.c.id, own.c.code, own.c.is_frozen)
                .outerjoin(of, of.c.token == visit.c.token)
                .outerjoin(own, own.c.id == of.c["class"])
                .where(visit.c.token == token)
            ).one_or_none()
            if row is None:
                return Standing()
            begun, terms = schema.visit_terms, schema.assignments
            mine = read(
                connection,
                connection.execute(
                    select(terms)
                    .join(begun, begun.c.assignment == terms.c.id)
                    .where(begun.c.token == token)
                ).one_or_none(),
            )
            now = connection.execute(newest().where(terms.c.call == row.call)).all()
        held = [r for r in now if r.mode == TEST and not r.is_released]
        joined = [] if row.id is not None else self._classes.of_trainee(row.trainee)
        if row.id is not None:
            # A class that practises a call goes on while another is tested with it.
            held = [r for r in held if getattr(r, "class") == row.id and mine.mode == TEST]
        return Standing(
            is_in_class=row.id is not None,
            is_frozen=bool(row.is_frozen),
            is_test=mine.mode == TEST,
            is_held=bool(held),
            # Nor may hints be had of a call that others are tested with.
            is_coached=mine.mode == PRACTICE and not held,
            allowed=mine.allowed(row.trainee),
            beside=joined[0].name if joined else "",
        )

    def of_trainee(self, code: str, trainee: str) -> list[tuple[str, str]]:
        """What a trainee has begun for a class, whether or not its call is still asked for.

        Parameters
        ----------
        code : str
            Of the class.
        trainee : str
            The browser's own name.

        Returns
        -------
        list
            Call and token of each visit, oldest first.
        """
        of, visit = schema.class_visits, schema.visits
        with self._classes.reading() as connection:
            rows = connection.execute(
                select(visit.c.call, visit.c.token)
                .join(of, of.c.token == visit.c.token)
                .where(of.c["class"] == self._classes.by_code(code).id)
                .where(visit.c.trainee == trainee)
                .order_by(visit.c.id)
            ).all()
        return [(row.call, row.token) for row in rows]

    def elsewhere(self, code: str, since: float) -> set[str]:
        """Who of a class has just acted on a visit that does not count for it.

        Parameters
        ----------
        code : str
            Of the class.
        since : float
            The earliest act that is still news, since 1970. [s]

        Returns
        -------
        set of str
            Trainees.
        """
        of, visit, member = schema.class_visits, schema.visits, schema.members
        own, stored = self._classes.by_code(code).id, schema.act_times
        with self._classes.reading() as connection:
            rows = connection.execute(
                select(visit.c.trainee)
                .join(member, member.c.trainee == visit.c.trainee)
                .join(stored, stored.c.visit == visit.c.id)
                .outerjoin(of, of.c.token == visit.c.token)
                .where(member.c["class"] == own, stored.c.stored_at >= since)
                .where(of.c["class"].is_(None) | (of.c["class"] != own))
                .distinct()
            ).all()
        return {row.trainee for row in rows}

    def begun(self, trainee: str, call: str) -> str | None:
        """A trainee's visit of a call under test, of which there is one only.

        Parameters
        ----------
        trainee : str
            The browser's own name.
        call : str
            Which call.

        Returns
        -------
        str or None
            Its token; None where there is none, or the call is no test for the trainee.
        """
        own = next((one for one in self._classes.of_trainee(trainee) if call in one.calls), None)
        if own is None or Assignments(self._classes).of(own.code)[call].mode != TEST:
            return None
        of, visit, begun = schema.class_visits, schema.visits, schema.visit_terms
        terms = schema.assignments
        with self._classes.reading() as connection:
            row = connection.execute(
                select(visit.c.token)
                .join(of, of.c.token == visit.c.token)
                .join(begun, begun.c.token == visit.c.token)
                .join(terms, terms.c.id == begun.c.assignment)
                .where(of.c["class"] == own.id, visit.c.trainee == trainee)
                .where(visit.c.call == call, terms.c.mode == TEST)
                .order_by(visit.c.id)
            ).first()
        return None if row is None else str(row.token)
