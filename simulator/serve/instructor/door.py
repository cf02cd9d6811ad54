"""Who may enter the instructor's corner: a hashed password, counted tries, a signed cookie."""

import secrets
import time
from collections import defaultdict, deque
from functools import lru_cache

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError

from simulator.records.instructor_records import InstructorRecords
from simulator.serve.paths import RECORDS_FILE, data_directory

COOKIE = "benchcall-instructor"
SHORTEST, LONGEST = 10, 200  # signs of a password
TRIES = 5  # in a WINDOW, from one address
WINDOW = 60.0  # [s]
DAY = 12 * 3600.0  # how long one stays signed in [s]

TOO_OFTEN = "Too many tries from this computer; wait a minute."
WRONG = "That is not the password."
NONE_SET = "No instructor's password is set on this bench yet."


class BadPassword(ValueError):
    """A password that cannot be set, in one sentence."""


@lru_cache(maxsize=1)
def records() -> InstructorRecords:
    """The password's record of this installation.

    Returns
    -------
    InstructorRecords
    """
    return InstructorRecords(data_directory() / RECORDS_FILE)


def set_password(password: str) -> None:
    """Hash and keep a password.

    Parameters
    ----------
    password : str
        As typed.

    Raises
    ------
    BadPassword
        If it is too short or too long.
    """
    if not SHORTEST <= len(password) <= LONGEST:
        raise BadPassword(
            f"A password has {SHORTEST} to {LONGEST} characters, not {len(password)}."
        )
    records().set_password_hash(PasswordHasher().hash(password))


class Door:
    """Tries and sessions of one server process.

    Nothing of it is kept on disk: a restart signs everybody out.
    """

    def __init__(self) -> None:
        self._tries: dict[str, deque[float]] = defaultdict(deque)
        self._sessions: dict[str, float] = {}

    def enter(self, password: str, address: str) -> tuple[str | None, str]:
        """Try a password.

        Parameters
        ----------
        password : str
            As typed.
        address : str
            From which computer.

        Returns
        -------
        tuple
            A session for the cookie, or None and a sentence.
        """
        now = time.monotonic()
        tries = self._tries[address]
        while tries and tries[0] < now - WINDOW:
            tries.popleft()
        if len(tries) >= TRIES:
            return None, TOO_OFTEN
        kept = records().password_hash()
        if kept is None:
            return None, NONE_SET
        tries.append(now)
        try:
            PasswordHasher().verify(kept, password[:LONGEST])
        except (VerificationError, InvalidHashError):
            return None, WRONG
        tries.clear()
        session = secrets.token_urlsafe(32)
        self._sessions[session] = now + DAY
        return session, ""

    def knows(self, session: str) -> bool:
        """Whether a session is good.

        Parameters
        ----------
        session : str
            From the cookie.

        Returns
        -------
        bool
        """
        until = self._sessions.get(session, 0.0)
        if until < time.monotonic():
            self._sessions.pop(session, None)
            return False
        return True

    def leave(self, session: str) -> None:
        """Sign out.

        Parameters
        ----------
        session : str
            From the cookie.
        """
        self._sessions.pop(session, None)
