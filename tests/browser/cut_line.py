"""A line between browser and bench that can be cut and mended, open sockets and all."""

import contextlib
import socket
import threading
from collections.abc import Callable
from types import TracebackType

PIECE = 65_536  # bytes


class CutLine:
    """Forwards one loopback port to another until it is cut.

    Parameters
    ----------
    port : int
        Of the bench.
    """

    def __init__(self, port: int) -> None:
        self._port = port
        self._is_cut = False
        self._open: set[socket.socket] = set()
        self._threads: list[threading.Thread] = []
        self._door = socket.create_server(("127.0.0.1", 0))
        self.address = f"http://127.0.0.1:{self._door.getsockname()[1]}"

    def __enter__(self) -> "CutLine":
        self._begin(self._welcome)
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        at: TracebackType | None,
    ) -> None:
        self.cut()
        with contextlib.suppress(OSError):
            self._door.shutdown(socket.SHUT_RDWR)
        for thread in list(self._threads):
            thread.join(5.0)
        self._door.close()

    def cut(self) -> None:
        """End what is open and refuse what comes."""
        self._is_cut = True
        for end in list(self._open):
            with contextlib.suppress(OSError):
                end.shutdown(socket.SHUT_RDWR)

    def mend(self) -> None:
        """Let through what comes from now on."""
        self._is_cut = False

    def _welcome(self) -> None:
        while True:
            try:
                near, _ = self._door.accept()
            except OSError:
                return
            if self._is_cut:
                near.close()
                continue
            try:
                far = socket.create_connection(("127.0.0.1", self._port))
            except OSError:
                near.close()
                continue
            self._begin(self._join, near, far)

    def _begin(self, work: Callable[..., None], *given: socket.socket) -> None:
        thread = threading.Thread(target=work, args=given, daemon=True)
        self._threads.append(thread)
        thread.start()

    def _join(self, near: socket.socket, far: socket.socket) -> None:
        """Carry both ways until either end stops."""
        self._open |= {near, far}
        back = threading.Thread(target=self._carry, args=(far, near), daemon=True)
        back.start()
        self._carry(near, far)
        back.join()
        self._open -= {near, far}
        near.close()
        far.close()

    def _carry(self, one: socket.socket, other: socket.socket) -> None:
        with contextlib.suppress(OSError):
            while piece := one.recv(PIECE):
                other.sendall(piece)
        for end in (one, other):
            with contextlib.suppress(OSError):
                end.shutdown(socket.SHUT_RDWR)
