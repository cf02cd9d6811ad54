"""Which visits count for which class."""

from sqlalchemy import insert, select

from simulator.records import schema
from simulator.records.class_records import ClassRecords
from simulator.records.plainly import plainly


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
        with plainly(), self._classes.engine.begin() as connection:
            connection.execute(
                insert(schema.class_visits).values({"token": token, "class": own.id})
            )

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
        with plainly(), self._classes.engine.connect() as connection:
            rows = connection.execute(
                select(table.c.token)
                .join(visit, visit.c.token == table.c.token)
                .where(table.c["class"] == self._classes.by_code(code).id)
                .order_by(visit.c.id)
            ).all()
        return [row.token for row in rows]

    def is_frozen(self, token: str) -> bool:
        """Whether the class of a visit is paused.

        Parameters
        ----------
        token : str
            Of the visit.

        Returns
        -------
        bool
            False for a visit of no class.
        """
        table, of = schema.classes, schema.class_visits
        with plainly(), self._classes.engine.connect() as connection:
            row = connection.execute(
                select(table.c.is_frozen)
                .join(of, of.c["class"] == table.c.id)
                .where(of.c.token == token)
            ).one_or_none()
        return row is not None and bool(row.is_frozen)
