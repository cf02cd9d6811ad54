"""A bench running as a learner's computer would run it, and a plain client for it."""

import json
import os
import re
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.cookiejar import CookieJar
from pathlib import Path
from typing import Any

import psutil

WARM_PARENT = "simulator.serve.kernels.forking.warm_parent"


@dataclass(frozen=True, slots=True, kw_only=True)
class RunningBench:
    """A server process of its own."""

    address: str
    data: Path
    process: "subprocess.Popen[str]"

    def kernels(self) -> list[psutil.Process]:
        """The kernels it is running at this moment."""
        children = psutil.Process(self.process.pid).children(recursive=True)
        return [child for child in children if _is_kernel(child)]

    def warm_parent(self) -> psutil.Process | None:
        """The process that its kernels are forked from, at this moment."""
        for child in psutil.Process(self.process.pid).children():
            if _says(child, WARM_PARENT):
                return child
        return None

    def log(self, name: str) -> str:
        """What the server keeps to itself."""
        path = self.data / "log" / f"{name}.log"
        return path.read_text(encoding="utf-8") if path.exists() else ""


@dataclass(frozen=True, slots=True)
class Answer:
    """What came back."""

    status: int
    body: str
    headers: Any


@dataclass(slots=True)
class Client:
    """A browser without a screen: it keeps cookies and follows nothing."""

    address: str
    cookies: CookieJar = field(default_factory=CookieJar)

    def ask(
        self,
        path: str,
        *,
        method: str = "GET",
        body: bytes | None = None,
        headers: dict[str, str] | None = None,
    ) -> Answer:
        """Send one request, and take an error page for an answer like any other."""
        opener = urllib.request.build_opener(
            urllib.request.HTTPCookieProcessor(self.cookies), _FollowNothing
        )
        request = urllib.request.Request(
            self.address + path, method=method, data=body, headers=headers or {}
        )
        try:
            with opener.open(request, timeout=60) as reply:
                return Answer(reply.status, reply.read().decode(), reply.headers)
        except urllib.error.HTTPError as error:
            with error:
                return Answer(error.code, error.read().decode(), error.headers)

    def cookie(self, name: str) -> str:
        """The value of a cookie, or nothing."""
        return next((cookie.value or "" for cookie in self.cookies if cookie.name == name), "")

    def take_call(self, call: str) -> str:
        """Open a visit, and say where its page is."""
        self.ask("")
        form = f"_xsrf={self.cookie('_xsrf')}".encode()
        taken = self.ask(f"start/{call}", method="POST", body=form)
        assert taken.status == 303, taken.status
        return str(taken.headers["Location"]).lstrip("/")

    def close_page(self, kernel: str) -> Answer:
        """Say what a closing tab says."""
        headers = {"X-XSRFToken": self.cookie("_xsrf")}
        path = f"voila/api/shutdown/{kernel}"
        return self.ask(path, method="POST", body=b"", headers=headers)


class _FollowNothing(urllib.request.HTTPRedirectHandler):
    def redirect_request(self, *_: Any, **__: Any) -> None:
        return None


def kernel_of(page: str) -> str:
    """The kernel that a page names."""
    found = re.search(r'"kernelId": "([0-9a-f-]{36})"', page)
    assert found, "the page names no kernel"
    return found[1]


def free_port() -> int:
    """A port that nobody listens on."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def soon(is_so: Any, within: float = 10.0) -> bool:
    """Whether something becomes true within a time."""
    deadline = time.monotonic() + within
    while time.monotonic() < deadline:
        if is_so():
            return True
        time.sleep(0.05)
    return bool(is_so())


def write_notebook(path: Path, *cells: str, **block: Any) -> None:
    """A page of code cells; without a complete block it may not be opened."""
    notebook = {
        "cells": [
            {
                "cell_type": "code",
                "execution_count": None,
                "id": f"cell-{number}",
                "metadata": {},
                "outputs": [],
                "source": source,
            }
            for number, source in enumerate(cells)
        ],
        "metadata": {"benchcall": block} if block else {},
        "nbformat": 4,
        "nbformat_minor": 5,
    }
    path.write_text(json.dumps(notebook), encoding="utf-8")


def lesson_block(title: str) -> dict[str, Any]:
    """The metadata of a lesson."""
    return {
        "title": title,
        "page": "lesson",
        "level": "anyone",
        "aim": "To be opened by a test.",
        "minutes": 1,
        "calls": [],
    }


@contextmanager
def running_bench(
    data: Path, *options: str, lessons: Path | None = None, **more: str
) -> Iterator[RunningBench]:
    """Start ``benchcall`` on a free port of this computer, and end it afterwards."""
    port = free_port()
    environment = os.environ | {"BENCHCALL_DATA": str(data)} | more
    if lessons is not None:
        environment["BENCHCALL_LESSONS"] = str(lessons)
    command = [sys.executable, "-m", "simulator.serve.command"]
    process = subprocess.Popen(
        [*command, "--port", str(port), "--no-browser", *options],
        env=environment,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )
    try:
        yield RunningBench(address=_address(process), data=data, process=process)
    finally:
        process.terminate()
        try:
            process.communicate(timeout=20)
        except subprocess.TimeoutExpired:
            process.kill()  # else it would stand in the way of every test after this one
            process.communicate(timeout=20)
            raise


def _address(process: "subprocess.Popen[str]") -> str:
    assert process.stdout is not None
    line = process.stdout.readline()
    found = re.search(r"http://\S+", line)
    assert found, f"the bench did not open: {line}"
    return found[0]


def _is_kernel(process: psutil.Process) -> bool:
    """An ordinary kernel by its name, a forked one by its parent."""
    if _says(process, WARM_PARENT):
        parent = process.parent()
        return parent is not None and _says(parent, WARM_PARENT)
    return _says(process, "simulator.serve.kernels.kernel")


def _says(process: psutil.Process, word: str) -> bool:
    try:
        return word in process.cmdline()
    except psutil.Error:
        return False
