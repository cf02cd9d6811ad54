"""Which calls a class works: taken back and added while it goes on."""

from sqlalchemy import select

from simulator.records import schema
from simulator.records.assignments import PRACTICE, Assignments
from simulator.records.class_records import ClassRecord, ClassRecords
from simulator.records.visit_records import RecordsError


class ClassCalls:
    """The calls of all classes.

    Parameters
    ----------
    classes : ClassRecords
        In the same file.
    """

    def __init__(self, classes: ClassRecords) -> None:
        self._classes = classes
        self._terms = Assignments(classes)

    def withdraw(self, code: str, call: str) -> None:
        """Take a call back: nobody begins it for the class any more.

        Parameters
        ----------
        code : str
            Of the class.
        call : str
            One that it works.

        Raises
        ------
        RecordsError
            For the last call, and for a test whose scores somebody waits for.
        """
        own = self._classes.by_code(code)
        if call not in own.calls:
            raise RecordsError("This class does not work that call.")
        left = [one for one in own.calls if one != call]
        if not left:
            raise RecordsError("A class keeps at least one call; assign another one first.")
        if self._terms.of(code)[call].is_held:
            if self._is_begun(own, call):
                raise RecordsError(
                    "Release the scores of this test first: whoever took it would wait for ever."
                )
            # Nobody took it, so it is no test any more, here or for others.
            self._terms.assign(code, call, PRACTICE, None)
        self._classes.work(own.code, left)

    def add(self, code: str, call: str) -> None:
        """Let a class work a further call, as practice.

        Parameters
        ----------
        code : str
            Of the class.
        call : str
            Its id, of a call that there is.

        Raises
        ------
        RecordsError
            If the class works it already.
        """
        own = self._classes.by_code(code)
        if call in own.calls:
            raise RecordsError("This class works that call already.")
        self._classes.work(own.code, [*own.calls, call])
        # Terms of an earlier time do not come back by themselves.
        self._terms.assign(own.code, call, PRACTICE, None)

    def _is_begun(self, own: ClassRecord, call: str) -> bool:
        of, visit = schema.class_visits, schema.visits
        with self._classes.reading() as connection:
            found = connection.execute(
                select(visit.c.id)
                .join(of, of.c.token == visit.c.token)
                .where(of.c["class"] == own.id, visit.c.call == call)
            ).first()
        return found is not None
