"""A page without a browser: it speaks to its kernel in raw messages, as an attacker would."""

import json
import time
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any

import websocket

from tests.serve.running import Client, kernel_of

COOKIES = ("benchcall-trainee", "_xsrf")


@dataclass(slots=True)
class RawPage:
    """An open line to a kernel."""

    line: websocket.WebSocket
    html: str
    heard: list[dict[str, Any]] = field(default_factory=list)

    def say(
        self,
        kind: str,
        content: dict[str, Any],
        channel: str = "shell",
        metadata: dict[str, Any] | None = None,
    ) -> str:
        """Send one message and return its id."""
        number = uuid.uuid4().hex
        header = {
            "msg_id": number,
            "msg_type": kind,
            "session": "raw",
            "username": "raw",
            "version": "5.3",
            "date": "2024-01-01T00:00:00Z",
        }
        message = {
            "header": header,
            "parent_header": {},
            "metadata": metadata or {},
            "content": content,
            "channel": channel,
            "buffers": [],
        }
        self.line.send(json.dumps(message))
        return number

    def listen(self, seconds: float) -> None:
        """Hear everything that comes within a time."""
        deadline = time.monotonic() + seconds
        while (left := deadline - time.monotonic()) > 0:
            self._hear(left)

    def _hear(self, within: float) -> None:
        """Hear one message, if one comes in time."""
        self.line.settimeout(within)
        try:
            received = self.line.recv()
        except websocket.WebSocketTimeoutException:
            return
        if isinstance(received, str) and received:
            self.heard.append(json.loads(received))

    def _said_to(self, number: str, method: str, within: float) -> dict[str, Any] | None:
        """The data that one message brought back; nothing when the kernel is done without."""
        deadline = time.monotonic() + within
        while (left := deadline - time.monotonic()) > 0:
            self._hear(left)
            for said in self.answers_to(number):
                data = said["content"].get("data", {})
                if data.get("method") == method:
                    return dict(data)
                if said["content"].get("execution_state") == "idle":
                    return None
        return None

    def answers_to(self, number: str) -> list[dict[str, Any]]:
        """What came back for one message."""
        return [said for said in self.heard if said["parent_header"].get("msg_id") == number]

    def everything(self) -> str:
        """All that was ever received, as text, stragglers too."""
        self.listen(0.1)
        return self.html + "".join(json.dumps(said) for said in self.heard)

    def states(self) -> dict[str, dict[str, Any]]:
        """Every widget's synced state, asked for as the front end does."""
        comm = uuid.uuid4().hex
        opening = {"comm_id": comm, "target_name": "jupyter.widget.control", "data": {}}
        self.say("comm_open", opening, metadata={"version": "1.0.0"})
        asked = self.say("comm_msg", {"comm_id": comm, "data": {"method": "request_states"}})
        answer = self._said_to(asked, "update_states", 30.0)
        return {} if answer is None else dict(answer["states"])

    def panel(self) -> str:
        """The widget that is the page's own, not the watch on the line."""
        found = [
            name
            for name, model in self.states().items()
            if "_anywidget_id" in model["state"]
            and "heartbeat" not in model["state"]["_anywidget_id"]
        ]
        assert len(found) == 1, "a page has one panel"
        return found[0]

    def ask(self, panel: str, content: Any, patience: float = 30.0) -> dict[str, Any] | None:
        """Say something to a panel as its script would; nothing when it does not answer."""
        number = self.tell(panel, {"method": "custom", "content": content})
        answer = self._said_to(number, "custom", patience)
        return None if answer is None else dict(answer["content"])

    def tell(self, model: str, data: dict[str, Any]) -> str:
        """Send data to one widget."""
        return self.say("comm_msg", {"comm_id": model, "data": data})


@contextmanager
def raw_page(client: Client, path: str) -> Iterator[RawPage]:
    """Open a page and a line to its kernel, and leave it afterwards."""
    html = client.ask(path).body
    kernel = kernel_of(html)
    address = client.address.replace("http://", "ws://") + f"api/kernels/{kernel}/channels"
    cookies = "; ".join(f"{name}={client.cookie(name)}" for name in COOKIES)
    line = websocket.create_connection(
        address + "?session_id=raw",
        cookie=cookies,
        timeout=10,
        origin=client.address.rstrip("/"),
    )
    try:
        yield RawPage(line, html)
    finally:
        line.close()
        client.close_page(kernel)
