"""Work that takes seconds, done beside a page so that the page goes on answering."""

from collections.abc import Callable
from dataclasses import dataclass
from threading import Thread
from typing import Any

Answer = dict[str, Any]
PENDING = "pending"


@dataclass(slots=True)
class Steps:
    """How far work has come that tells its steps.

    Parameters
    ----------
    reached : int
        The step under way, from 1; 0 where none is told. [-]
    """

    reached: int = 0

    def reach(self, step: int) -> None:
        """Note that a step has begun.

        Parameters
        ----------
        step : int
            Counted from 1. [-]
        """
        self.reached = step


class Beside:
    """One answer being worked out.

    Parameters
    ----------
    work : callable
        Gives the answer; it must not touch what the page itself works with.
    steps : Steps, optional
        Where the work notes how far it has come.
    """

    def __init__(self, work: Callable[[], Answer], steps: Steps | None = None) -> None:
        self._work = work
        self._steps = steps or Steps()
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
            ``pending`` while it is under way, and ``step`` where its work tells them.

        Raises
        ------
        Exception
            What the work raised, where the page asks for it.
        """
        if not self.is_over:
            step = self._steps.reached
            return {PENDING: True, **({"step": step} if step else {})}
        if self._problem is not None:
            raise self._problem
        return dict(self._answer or {})
