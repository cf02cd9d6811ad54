"""Work that takes seconds and much memory, done in a child of the page's process.

A thread would share the interpreter with the page's own answers, and a process keeps what it
once held; a child has an interpreter of its own, lets the class go first and takes all with it.
"""

import contextlib
import ctypes
import gc
import os
import pickle
import signal
import sys
import traceback
from collections.abc import Callable
from typing import Any, NoReturn

from simulator.calls.kept_tables import FOLDER

Answer = dict[str, Any]
BEHIND = 10  # the acts of the class, in the scheduler's order [-]
END_WITH_PARENT = 1  # PR_SET_PDEATHSIG of prctl(2)


class Lost(RuntimeError):
    """The child ended without an answer."""


def apart(work: Callable[[], Answer]) -> Answer:
    """An answer from a child where a bench keeps tables for all its processes, else from here.

    To be called in a thread of its own, which waits; the child ends with it.

    Parameters
    ----------
    work : callable
        Gives the answer, plain enough for ``pickle``. Nothing else of what it does remains but
        the tables it has kept.

    Returns
    -------
    dict

    Raises
    ------
    Lost
        When the child was ended.
    Exception
        What the work raised.
    """
    # Other systems' libraries do not survive a fork, or there is none.
    if sys.platform != "linux" or not os.environ.get(FOLDER):
        return work()
    reading, writing = os.pipe()
    page = os.getpid()
    child = os.fork()
    if child == 0:
        _work_and_end(work, writing, page)
    os.close(writing)
    with os.fdopen(reading, "rb") as pipe:
        told = pipe.read()
    _, status = os.waitpid(child, 0)
    if not told:
        raise Lost(os.waitstatus_to_exitcode(status))
    answer: Answer | Exception = pickle.loads(told)
    if isinstance(answer, Exception):
        raise answer
    return answer


def _work_and_end(work: Callable[[], Answer], writing: int, page: int) -> NoReturn:
    try:
        ctypes.CDLL(None).prctl(END_WITH_PARENT, int(signal.SIGKILL))
        if os.getppid() == page:
            signal.set_wakeup_fd(-1)  # that is the page's
            os.nice(BEHIND)
            # What is frozen is not written to by the collector, so its memory stays shared.
            gc.freeze()
            with os.fdopen(writing, "wb") as pipe:
                pipe.write(_packed(work))
    finally:
        # Without the page's farewells: they are not the child's to say.
        os._exit(0)


def _packed(work: Callable[[], Answer]) -> bytes:
    try:
        return pickle.dumps(work())
    except Exception as problem:
        problem.add_note(traceback.format_exc())
        with contextlib.suppress(Exception):
            whole = pickle.dumps(problem)
            pickle.loads(whole)
            return whole
        return pickle.dumps(RuntimeError("".join(traceback.format_exception(problem))))
