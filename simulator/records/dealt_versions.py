"""Which version of its call a visit is, and where a class deals each trainee one of their own."""

import time
from collections.abc import Sequence

from sqlalchemy import func, insert, select

from simulator.records import schema
from simulator.records.class_records import ClassRecords
from simulator.records.visit_records import RecordsError


class DealtVersions:
    """Versions by visit and by class; rows are only ever added.

    Parameters
    ----------
    classes : ClassRecords
        In the same file.
    """

    def __init__(self, classes: ClassRecords) -> None:
        self._classes = classes

    def note(self, token: str, version: int) -> None:
        """Keep which version a visit is begun at, once and for all.

        Parameters
        ----------
        token : str
            Of the visit, already stored.
        version : int
            Its number; 0, the call itself, is not written. [-]
        """
        if version:
            with self._classes.writing() as connection:
                connection.execute(
                    insert(schema.visit_versions).values(token=token, version=version)
                )

    def of(self, token: str) -> int:
        """The version of a visit.

        Parameters
        ----------
        token : str
            Of the visit.

        Returns
        -------
        int
            0 for the call itself. [-]
        """
        table = schema.visit_versions
        with self._classes.reading() as connection:
            found = connection.execute(select(table.c.version).where(table.c.token == token))
            return int(found.scalar() or 0)

    def choose(self, code: str, call: str, *, is_own: bool) -> None:
        """Deal each trainee a version of their own from now on, or everybody the call itself.

        Parameters
        ----------
        code : str
            Of the class.
        call : str
            One that it works.
        is_own : bool
            What to do.

        Raises
        ------
        RecordsError
            If the class does not work that call.
        """
        own = self._classes.by_code(code)
        if call not in own.calls:
            raise RecordsError("This class does not work that call.")
        values = {"class": own.id, "call": call, "is_own": int(is_own), "given_at": time.time()}
        with self._classes.writing() as connection:
            connection.execute(insert(schema.version_choices).values(values))

    def dealt(self, code: str) -> frozenset[str]:
        """Calls of which each trainee of a class gets a version of their own.

        Parameters
        ----------
        code : str
            Of the class.

        Returns
        -------
        frozenset
            By id.
        """
        table, own = schema.version_choices, self._classes.by_code(code)
        last = select(func.max(table.c.id)).where(table.c["class"] == own.id).group_by(table.c.call)
        with self._classes.reading() as connection:
            rows: Sequence[str] = (
                connection.execute(
                    select(table.c.call).where(table.c.id.in_(last), table.c.is_own == 1)
                )
                .scalars()
                .all()
            )
        return frozenset(rows)
