"""Work that takes seconds, done beside a page so that the page goes on answering."""

from collections.abc import Callable
from threading import Thread
from typing import Any

Answer = dict[str, Any]
PENDING = "pending"


class Beside:
    """One answer being worked out.

    Parameters
    ----------
    work : callable
        Gives the answer; it must not touch what the page itself works with.
    """

    def __init__(self, work: Callable[[], Answer]) -> None:
        self._work = work
        self._answer: Answer | None = None
        self._problem: Exception | None = None
        self._thread = Thread(target=self._run, name="beside", daemon=True)
        self._thread.start()

    def _run(self) -> None:
        try:
            self._answer = self._work()
        except Exception as problem:
            self._problem = problem

    @property
    def is_over(self) -> bool:
        """Whether an answer, or what went wrong, is there."""
        return not self._thread.is_alive()

    def wait(self, patience: float) -> None:
        """Give it a moment.

        Parameters
        ----------
        patience : float
            At most. [s]
        """
        self._thread.join(patience)

    def answer(self) -> Answer:
        """What has come of it.

        Returns
        -------
        dict
            ``pending`` while it is under way.

        Raises
        ------
        Exception
            What the work raised, where the page asks for it.
        """
        if not self.is_over:
            return {PENDING: True}
        if self._problem is not None:
            raise self._problem
        return dict(self._answer or {})
