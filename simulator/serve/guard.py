"""What went wrong stays on the server: a ticket number is all that a learner sees."""

import functools
import html
import logging
import os
import secrets
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any, ParamSpec

from simulator.serve.paths import log_file

P = ParamSpec("P")
LOG = logging.getLogger("benchcall")
LARGEST_LOG = 5_000_000


def apology(ticket: str) -> str:
    """The sentence for a learner after a fault of ours.

    Parameters
    ----------
    ticket : str
        The number under which the server's log holds the details.

    Returns
    -------
    str
        One sentence and what to do.
    """
    return (
        f"Something failed on our side (ticket {ticket}). "
        "What you recorded is kept: reload the page to go on."
    )


def ticket_for(error: BaseException) -> str:
    """Write an error to the server's log under a new ticket number.

    Parameters
    ----------
    error : BaseException
        What was raised.

    Returns
    -------
    str
        Six characters to quote.
    """
    ticket = secrets.token_hex(3).upper()
    LOG.error("ticket %s", ticket, exc_info=error)
    return ticket


def guarded(callback: Callable[P, object], tell: Callable[[str], object]) -> Callable[P, None]:
    """Wrap a callback so that its errors never travel to the browser.

    Parameters
    ----------
    callback : callable
        What a widget calls when a person acts.
    tell : callable
        Receives the sentence for the learner.

    Returns
    -------
    callable
        Takes the same arguments and returns nothing.
    """

    @functools.wraps(callback)
    def safe(*arguments: P.args, **options: P.kwargs) -> None:
        try:
            callback(*arguments, **options)
        except Exception as error:
            # Whatever it is: nothing may pass to the browser.
            tell(apology(ticket_for(error)))

    return safe


def write_logs_to(path: Path) -> None:
    """Send this process's log, and all it prints, to a file.

    The file is moved aside when it has grown too large.

    Parameters
    ----------
    path : Path
        The log file.
    """
    start_log(path)
    sys.stdout.flush()
    sys.stderr.flush()
    with path.open("a") as sink:
        os.dup2(sink.fileno(), 1)
        os.dup2(sink.fileno(), 2)
    # Reopened on the same descriptors, because a kernel replaces the streams by ones that
    # travel to the browser.
    stream = open(1, "a", buffering=1, encoding="utf-8", errors="replace", closefd=False)  # noqa: SIM115
    sys.stdout = sys.stderr = stream


def start_log(path: Path) -> None:
    """Let the root logger write to a file only.

    Parameters
    ----------
    path : Path
        The log file; moved aside when it has grown too large.
    """
    if path.exists() and path.stat().st_size > LARGEST_LOG:
        path.replace(path.with_suffix(".old.log"))
    pattern = "%(asctime)s %(process)d %(name)s %(levelname)s %(message)s"
    logging.basicConfig(filename=path, format=pattern, level=logging.WARNING, force=True)
    logging.captureWarnings(True)


def guard_shell(shell: Any) -> None:
    """Make a kernel answer an error with a ticket instead of a traceback.

    Parameters
    ----------
    shell : InteractiveShell
        The kernel's shell.
    """

    def report(*_: object, **__: object) -> None:
        error = sys.exc_info()[1]
        if error is not None:
            _show(apology(ticket_for(error)))

    for method in ("showtraceback", "showsyntaxerror", "showindentationerror"):
        setattr(shell, method, report)


def guard_this_process() -> None:
    """Point the kernel's log and prints at the server's file."""
    write_logs_to(log_file("kernel"))


def _show(sentence: str) -> None:
    from IPython.display import publish_display_data

    note = f'<p class="problem" role="alert">{html.escape(sentence)}</p>'
    data = {"text/html": note, "text/plain": sentence}
    publish_display_data(data)  # type: ignore[no-untyped-call]
