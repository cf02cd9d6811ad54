"""Visits graded beside the server, so that no page waits for another's odds."""

import asyncio
import os
import sys
from collections.abc import Iterable

from simulator.calls.call_table import CallFileError
from simulator.records.visit_records import RecordsError
from simulator.serve.visits import graded

BEHIND = 5  # of priority, behind whatever answers a click, where nobody waits for it
_under_way: set[asyncio.Task[None]] = set()


def lacking(tokens: Iterable[str]) -> list[str]:
    """Those of which no result is stored.

    Parameters
    ----------
    tokens : iterable of str
        Of closed visits.

    Returns
    -------
    list
    """
    return [token for token in tokens if graded.stored(token) is None]


async def worked_out(tokens: Iterable[str], behind: int = 0) -> None:
    """Grade what is not graded yet, in a process of its own.

    Parameters
    ----------
    tokens : iterable of str
        Of closed visits.
    behind : int
        How much less urgent than the server. [-]
    """
    left = lacking(tokens)
    if not left:
        return
    # Tokens open visits: they go in by the pipe, for a command line can be read by anybody.
    process = await asyncio.create_subprocess_exec(
        sys.executable,
        *("-m", "simulator.serve.visits.grading", str(behind)),
        stdin=asyncio.subprocess.PIPE,
        # Whoever reads what the server prints must not wait for this.
        stdout=asyncio.subprocess.DEVNULL,
        stderr=asyncio.subprocess.DEVNULL,
    )
    await process.communicate("\n".join(left).encode())


def begin(tokens: Iterable[str]) -> None:
    """The same without waiting; a second wish is dropped while one is under way.

    Parameters
    ----------
    tokens : iterable of str
        Of closed visits.
    """
    if _under_way:
        return
    task = asyncio.ensure_future(worked_out(tokens, BEHIND))
    _under_way.add(task)
    task.add_done_callback(_under_way.discard)


def main() -> None:
    """Grade the visits whose tokens come in, one a line."""
    from simulator.serve.visits.closed_visits import final_card

    if hasattr(os, "nice"):
        os.nice(int(sys.argv[1]))
    for line in sys.stdin:
        try:
            final_card(line.strip())
        except (RecordsError, CallFileError):
            continue


if __name__ == "__main__":
    main()
