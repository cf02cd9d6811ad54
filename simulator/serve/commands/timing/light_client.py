"""A page without a screen: what a trainee's browser asks of the server, and no more.

A room of laptops does its own drawing, so thirty real browsers on one computer would measure
the browsers. A light client fetches the page, opens the line to its kernel and asks for the
widgets' states, as the front end does.
"""

import asyncio
import json
import re
import uuid
from collections.abc import Callable
from dataclasses import dataclass, field
from http.cookies import SimpleCookie
from typing import Any
from urllib.parse import urlencode

from tornado.httpclient import AsyncHTTPClient, HTTPRequest, HTTPResponse
from tornado.httputil import HTTPHeaders
from tornado.websocket import WebSocketClientConnection, websocket_connect

PATIENCE = 120.0  # [s]
_KERNEL = re.compile(r'"kernelId": "([0-9a-f-]{36})"')


class NotReady(Exception):
    """A page that did not come, or whose kernel says nothing."""


@dataclass(slots=True)
class LightClient:
    """A browser's cookies, its page and the line to the kernel.

    Parameters
    ----------
    address : str
        Of the server.
    """

    address: str
    cookies: dict[str, str] = field(default_factory=dict)
    line: WebSocketClientConnection | None = None
    heard: asyncio.Queue[str | bytes | None] = field(default_factory=asyncio.Queue)

    async def fetch(
        self, path: str, form: dict[str, str] | None = None, **headers: str
    ) -> HTTPResponse:
        """One request; a redirection is not followed.

        Parameters
        ----------
        path : str
            After the address.
        form : dict of str to str, optional
            To be posted.
        **headers
            More of them, underscores for hyphens.

        Returns
        -------
        HTTPResponse
        """
        sent = {name.replace("_", "-"): value for name, value in headers.items()}
        request = HTTPRequest(
            self.address + path,
            method="GET" if form is None else "POST",
            body=None if form is None else urlencode(form),
            headers=HTTPHeaders({"Cookie": self._cookie(), **sent}),
            request_timeout=PATIENCE,
            connect_timeout=PATIENCE,
            follow_redirects=False,
        )
        answer = await AsyncHTTPClient().fetch(request, raise_error=False)
        for line in answer.headers.get_list("Set-Cookie"):
            for name, morsel in SimpleCookie(line).items():
                self.cookies[name] = morsel.value
        return answer

    async def take_call(self, call: str) -> str:
        """Open a visit.

        Parameters
        ----------
        call : str
            Its id.

        Returns
        -------
        str
            Where its page is.
        """
        await self.fetch("")
        taken = await self.fetch(f"start/{call}", {"_xsrf": self.cookies["_xsrf"]})
        return str(taken.headers["Location"]).lstrip("/")

    async def open(self, path: str) -> dict[str, Any]:
        """Open a page up to the states of its widgets.

        Parameters
        ----------
        path : str
            Of the page.

        Returns
        -------
        dict
            States by model.
        """
        page = await self.fetch(path)
        found = _KERNEL.search(page.body.decode(errors="replace")) if page.code == 200 else None
        if found is None:
            raise NotReady(f"status {page.code}")
        address = self.address.replace("http://", "ws://")
        request = HTTPRequest(
            f"{address}api/kernels/{found[1]}/channels?session_id={uuid.uuid4().hex}",
            headers=HTTPHeaders({"Cookie": self._cookie(), "Origin": self.address.rstrip("/")}),
            connect_timeout=PATIENCE,
        )
        # As a browser does, the line is emptied at all times: an unread one answers no ping.
        self.line = await websocket_connect(request, on_message_callback=self.heard.put_nowait)
        comm = uuid.uuid4().hex
        opening = {"comm_id": comm, "target_name": "jupyter.widget.control", "data": {}}
        await self._say("comm_open", opening, {"version": "1.0.0"})
        asked = {"comm_id": comm, "data": {"method": "request_states"}}
        number = await self._say("comm_msg", asked)
        states = await self._hear(number, lambda data: data.get("method") == "update_states")
        if not states.get("states"):
            raise NotReady("no widgets")
        return dict(states["states"])

    async def ask(self, panel: str, content: dict[str, Any]) -> dict[str, Any]:
        """Say something to a panel as its script would.

        Parameters
        ----------
        panel : str
            Its model.
        content : dict
            The message.

        Returns
        -------
        dict
            The panel's answer.
        """
        asked = {"comm_id": panel, "data": {"method": "custom", "content": content}}
        number = await self._say("comm_msg", asked)
        return dict((await self._hear(number, lambda data: "content" in data))["content"])

    def leave(self) -> None:
        """Close the line."""
        if self.line is not None:
            self.line.close()

    def _cookie(self) -> str:
        return "; ".join(f"{name}={value}" for name, value in self.cookies.items())

    async def _say(
        self, kind: str, content: dict[str, Any], metadata: dict[str, Any] | None = None
    ) -> str:
        assert self.line is not None  # noqa: S101
        number = uuid.uuid4().hex
        message = {
            "header": {
                "msg_id": number,
                "msg_type": kind,
                "session": "light",
                "username": "light",
                "version": "5.3",
                "date": "2024-01-01T00:00:00Z",
            },
            "parent_header": {},
            "metadata": metadata or {},
            "content": content,
            "channel": "shell",
            "buffers": [],
        }
        await self.line.write_message(json.dumps(message))
        return number

    async def _hear(self, number: str, is_it: Callable[[dict[str, Any]], bool]) -> dict[str, Any]:
        async with asyncio.timeout(PATIENCE):
            while (said := await self.heard.get()) is not None:
                # Looking before parsing: thirty clients share this process.
                if isinstance(said, str) and number in said:
                    data = json.loads(said)["content"].get("data", {})
                    if is_it(data):
                        return dict(data)
        code = None if self.line is None else self.line.close_code
        raise NotReady(f"the line was closed: {code}")


def panel_of(states: dict[str, Any]) -> str:
    """The widget that is the page's own, not the watch on the line.

    Parameters
    ----------
    states : dict
        By model.

    Returns
    -------
    str
        Its model.
    """
    for name, model in states.items():
        kind = model["state"].get("_anywidget_id", "")
        if kind and "heartbeat" not in kind:
            return str(name)
    raise NotReady("no panel")
