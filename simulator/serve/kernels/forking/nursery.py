"""The warm parent's side: it forks when asked, buries its children and reports their end.

One line of JSON a message over a pair of sockets. The server sends

- ``{"fork": number}`` with a file that holds the order for the child, unread here, so that
  no child inherits the memory of another's page;
- ``{"signal": number, "pid": pid}``, sent on only to a child that has not been buried, whose
  number therefore cannot belong to another process by now.

Back come ``{"fork": number, "pid": pid}`` and ``{"ended": pid, "status": status}``.
"""

import array
import contextlib
import json
import os
import selectors
import signal
import socket
from typing import Any

LARGEST_READ = 65536
MOST_FILES = 64
PATIENCE = 2.0  # [s]


class Nursery:
    """Forks and buries.

    Parameters
    ----------
    line : socket
        To the server.
    """

    def __init__(self, line: socket.socket) -> None:
        self._line = line
        self._children: set[int] = set()
        self._said = b""
        self._files: list[int] = []
        self._woken, self._alarm = socket.socketpair()
        for end in (self._woken, self._alarm):
            end.setblocking(False)

    def serve(self) -> int | None:
        """Answer until the server is gone.

        Returns
        -------
        int or None
            In a child: the descriptor of the file that holds its order. In the parent: None,
            when the server is gone and the children have been told to end.
        """
        signal.signal(signal.SIGCHLD, lambda *_: None)
        signal.set_wakeup_fd(self._alarm.fileno(), warn_on_full_buffer=False)
        with selectors.DefaultSelector() as selector:
            selector.register(self._line, selectors.EVENT_READ)
            selector.register(self._woken, selectors.EVENT_READ)
            while True:
                ready = {key.fileobj for key, _ in selector.select()}
                if self._woken in ready:
                    with contextlib.suppress(BlockingIOError):
                        self._woken.recv(LARGEST_READ)
                    self._bury()
                if self._line in ready:
                    messages = self._heard()
                    if messages is None:
                        break
                    for message in messages:
                        order = self._obey(message)
                        if order is not None:
                            return order
        self._end_all()
        return None

    def _heard(self) -> list[dict[str, Any]] | None:
        """Whole messages that have come; None when nobody is at the other end."""
        room = socket.CMSG_SPACE(MOST_FILES * array.array("i").itemsize)
        try:
            data, extra, _, _ = self._line.recvmsg(LARGEST_READ, room)
        except ConnectionError:
            return None
        for level, kind, content in extra:
            if (level, kind) == (socket.SOL_SOCKET, socket.SCM_RIGHTS):
                files = array.array("i")
                files.frombytes(content[: len(content) - len(content) % files.itemsize])
                self._files += files
        if not data:
            return None
        *lines, self._said = (self._said + data).split(b"\n")
        return [json.loads(line) for line in lines]

    def _obey(self, message: dict[str, Any]) -> int | None:
        if "signal" in message:
            self._signal(message["pid"], message["signal"])
            return None
        order = self._files.pop(0)
        child = os.fork()
        if child == 0:
            self._leave(order)
            return order
        os.close(order)
        self._children.add(child)
        self._say({"fork": message["fork"], "pid": child})
        return None

    def _leave(self, order: int) -> None:
        """In a child: let go of all that is the parent's."""
        signal.set_wakeup_fd(-1)
        signal.signal(signal.SIGCHLD, signal.SIG_DFL)
        self._woken.close()
        self._alarm.close()
        for other in self._files:
            if other != order:
                os.close(other)
        nothing = os.open(os.devnull, os.O_RDONLY)
        self._line.detach()
        os.dup2(nothing, 0)
        os.close(nothing)

    def _bury(self) -> None:
        for child in list(self._children):
            ended, status = os.waitpid(child, os.WNOHANG)
            if ended:
                self._children.discard(child)
                self._say({"ended": child, "status": os.waitstatus_to_exitcode(status)})

    def _signal(self, child: int, number: int) -> None:
        if child not in self._children:
            return
        try:
            os.killpg(child, number)
        except ProcessLookupError:
            # It has not come to lead a group of its own yet.
            os.kill(child, number)

    def _say(self, message: dict[str, Any]) -> None:
        # A server that is gone is noticed by reading.
        with contextlib.suppress(ConnectionError):
            self._line.sendall(json.dumps(message).encode() + b"\n")

    def _end_all(self) -> None:
        for number in (signal.SIGTERM, signal.SIGKILL):
            for child in self._children:
                self._signal(child, number)
            with selectors.DefaultSelector() as selector:
                selector.register(self._woken, selectors.EVENT_READ)
                while self._children and selector.select(PATIENCE):
                    self._woken.recv(LARGEST_READ)
                    self._bury()
