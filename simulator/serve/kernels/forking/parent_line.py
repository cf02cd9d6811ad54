"""The server's line to the warm parent, and the kernels that came of it."""

import asyncio
import contextlib
import json
import logging
import signal
import socket
import subprocess
import sys
import tempfile
from typing import Any

LOG = logging.getLogger("benchcall")
WITHIN = 30.0  # [s]
MOST_LOSSES = 3
LARGEST_READ = 65536
MODULE = "simulator.serve.kernels.forking.warm_parent"


class ForkFailed(Exception):
    """The warm parent did not give a kernel; an ordinary one is started instead."""


def can_fork() -> bool:
    """Whether this system forks safely and ends a child with its parent.

    Returns
    -------
    bool
        True on Linux. Libraries of macOS do not survive a fork, and Windows knows none.
    """
    return sys.platform == "linux"


class ForkedProcess:
    """A kernel forked by the warm parent, with the manners of ``subprocess.Popen``.

    Parameters
    ----------
    pid : int
        Process number.
    parent : WarmParent
        Which forked it.
    """

    stdin = stdout = stderr = None

    def __init__(self, pid: int, parent: "WarmParent") -> None:
        self.pid = pid
        self.returncode: int | None = None
        self._parent = parent

    def poll(self) -> int | None:
        """Exit status, negative for a signal; None while it runs.

        Returns
        -------
        int or None
        """
        if self.returncode is None:
            # While the server ends, another loop asks than the one that listens.
            self._parent.hear()
        return self.returncode

    def wait(self) -> int | None:
        """As `poll`: the parent does the waiting.

        Returns
        -------
        int or None
        """
        return self.poll()

    def send_signal(self, number: int) -> None:
        """Let the parent signal the kernel and all it has started.

        Parameters
        ----------
        number : int
            The signal.
        """
        if self.returncode is None:
            self._parent.signal(self.pid, number)

    def kill(self) -> None:
        """End it at once."""
        self.send_signal(signal.SIGKILL)

    def terminate(self) -> None:
        """Ask it to end."""
        self.send_signal(signal.SIGTERM)


class WarmParent:
    """The warm parent as the server sees it: started, asked, and started again when lost.

    Parameters
    ----------
    environment : dict of str to str
        All that it and its children's memory may ever hold of the server's.
    """

    def __init__(self, environment: dict[str, str]) -> None:
        self._environment = environment
        self._process: subprocess.Popen[bytes] | None = None
        self._line: socket.socket | None = None
        self._loop: asyncio.AbstractEventLoop | None = None
        self._said = b""
        self._asked = 0
        self._waiting: dict[int, asyncio.Future[ForkedProcess]] = {}
        self._children: dict[int, ForkedProcess] = {}
        self._losses = 0

    def start(self) -> None:
        """Start it; what is asked before it is warm waits. First called on a running loop."""
        self._loop = self._loop or asyncio.get_running_loop()
        ours, theirs = socket.socketpair()
        ours.setblocking(False)
        with theirs:
            self._process = subprocess.Popen(
                [sys.executable, "-P", "-m", MODULE],
                env=self._environment,
                stdin=theirs.fileno(),
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
                # Ctrl-C in the server's terminal is the server's.
                start_new_session=True,
            )
        self._line = ours
        self._said = b""
        self._loop.add_reader(ours, self.hear)

    async def fork(
        self, arguments: list[str], environment: dict[str, str], folder: str
    ) -> ForkedProcess:
        """Get a kernel.

        Parameters
        ----------
        arguments : list of str
            Of its command line.
        environment : dict of str to str
            Instead of the parent's.
        folder : str
            To work in.

        Returns
        -------
        ForkedProcess
            Running.

        Raises
        ------
        ForkFailed
            When there is no parent, or none that answers in time.
        """
        if self._line is None:
            raise ForkFailed("there is no warm parent")
        self._asked += 1
        number, line = self._asked, self._line
        answer: asyncio.Future[ForkedProcess] = asyncio.get_running_loop().create_future()
        order = {"arguments": arguments, "environment": environment, "folder": folder}
        with tempfile.TemporaryFile("w+", encoding="utf-8") as file:
            json.dump(order, file)
            file.flush()
            file.seek(0)
            try:
                socket.send_fds(line, [_line_of({"fork": number})], [file.fileno()])
            except OSError as why:
                raise ForkFailed(str(why)) from why
        self._waiting[number] = answer
        try:
            return await asyncio.wait_for(answer, WITHIN)
        except TimeoutError as why:
            raise ForkFailed("the warm parent does not answer") from why
        finally:
            self._waiting.pop(number, None)

    def signal(self, pid: int, number: int) -> None:
        """Pass a signal to a child.

        Parameters
        ----------
        pid : int
            The child.
        number : int
            The signal.
        """
        if self._line is not None:
            # With the parent gone the child is ended too, and `hear` will say so.
            with contextlib.suppress(OSError):
                self._line.sendall(_line_of({"pid": pid, "signal": number}))

    def close(self) -> None:
        """Let the parent go, and every child with it."""
        self._losses = MOST_LOSSES
        self._lose()

    def hear(self) -> None:
        """Take in what the parent has said so far."""
        if self._line is None:
            return
        try:
            data = self._line.recv(LARGEST_READ)
        except BlockingIOError:
            return
        except OSError:
            data = b""
        if not data:
            LOG.error("the warm parent of the kernels has ended")
            self._losses += 1
            self._lose()
            return
        *lines, self._said = (self._said + data).split(b"\n")
        for line in lines:
            self._take(json.loads(line))

    def _take(self, message: dict[str, Any]) -> None:
        if "ended" in message:
            child = self._children.pop(message["ended"], None)
            if child is not None:
                child.returncode = message["status"]
            return
        child = ForkedProcess(message["pid"], self)
        self._children[child.pid] = child
        self._losses = 0
        answer = self._waiting.pop(message["fork"], None)
        if answer is None or answer.done():
            # Whoever asked has stopped waiting.
            child.kill()
        else:
            answer.set_result(child)

    def _lose(self) -> None:
        """Forget a parent, and start another unless that has failed too often."""
        line, process = self._line, self._process
        self._line = self._process = None
        if line is not None and self._loop is not None:
            self._loop.remove_reader(line)
            line.close()
        if process is not None and self._losses:
            process.kill()
            process.wait()
        for child in self._children.values():
            # The kernel of the system ends them with their parent.
            child.returncode = -int(signal.SIGKILL)
        self._children.clear()
        for answer in self._waiting.values():
            if not answer.done():
                answer.set_exception(ForkFailed("the warm parent has ended"))
        self._waiting.clear()
        if self._losses < MOST_LOSSES:
            self.start()


def _line_of(message: dict[str, int]) -> bytes:
    return json.dumps(message).encode() + b"\n"
