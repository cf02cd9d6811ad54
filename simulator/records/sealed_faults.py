"""Faults of the test stand behind a code: added, read back, never changed."""

import json
import secrets
import time
from collections.abc import Mapping

from sqlalchemy import insert, select

from simulator.records import schema
from simulator.records.class_records import CODE_LENGTH, CODE_SIGNS
from simulator.records.database import Database


class SealedFaults(Database):
    """All of them in one database file."""

    def seal(self, faults: Mapping[str, float]) -> str:
        """Keep some faults under a fresh code, which says nothing of them.

        Parameters
        ----------
        faults : mapping
            Severity in SI by name.

        Returns
        -------
        str
            The code; the same faults get another one each time.
        """
        code = "".join(secrets.choice(CODE_SIGNS) for _ in range(CODE_LENGTH))
        row = {"code": code, "faults": json.dumps(dict(faults)), "given_at": time.time()}
        with self.writing() as connection:
            connection.execute(insert(schema.sealed_faults).values(**row))
        return code

    def opened(self, code: str) -> dict[str, float] | None:
        """What is behind a code.

        Parameters
        ----------
        code : str
            As ``seal`` gave it.

        Returns
        -------
        dict or None
            Severity in SI by name; None where nothing is kept under it.
        """
        table = schema.sealed_faults
        with self.reading() as connection:
            row = connection.execute(select(table).where(table.c.code == code)).first()
        return None if row is None else json.loads(row.faults)
