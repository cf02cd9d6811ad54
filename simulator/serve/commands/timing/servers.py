"""Servers started only to be timed."""

import json
import os
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from urllib.error import URLError
from urllib.request import urlopen

HELLO = "import ipywidgets\nipywidgets.Label('hello')"
STARTS_WITHIN = 120.0  # also on a computer that others keep busy [s]
ENDS_WITHIN = 60.0  # [s]


@dataclass(frozen=True, slots=True, kw_only=True)
class Served:
    """A server that listens.

    Parameters
    ----------
    address : str
        With a slash at its end.
    pid : int
        Process number.
    """

    address: str
    pid: int


@contextmanager
def our_server(folder: Path) -> Iterator[Served]:
    """The bench, with data of its own.

    Parameters
    ----------
    folder : Path
        For its data.

    Yields
    ------
    Served
        Its address is that of the home page.
    """
    port = _free_port()
    command = [sys.executable, "-m", "simulator.serve.command", "--port", str(port), "--no-browser"]
    with _running(command, port, os.environ | {"BENCHCALL_DATA": str(folder)}) as served:
        yield served


@contextmanager
def plain_server(folder: Path) -> Iterator[Served]:
    """Voila as it comes, with a page of one label.

    Parameters
    ----------
    folder : Path
        For the notebook.

    Yields
    ------
    Served
        Its address is that of the page.
    """
    notebook = folder / "hello.ipynb"
    cell: dict[str, object] = {
        "cell_type": "code",
        "execution_count": None,
        "id": "hello",
        "metadata": {},
        "outputs": [],
        "source": HELLO,
    }
    whole = {"cells": [cell], "metadata": {}, "nbformat": 4, "nbformat_minor": 5}
    notebook.write_text(json.dumps(whole), encoding="utf-8")
    port = _free_port()
    command = [sys.executable, "-m", "voila", str(notebook), "--no-browser", f"--port={port}"]
    with _running(command, port, dict(os.environ)) as served:
        yield served


@contextmanager
def _running(command: list[str], port: int, environment: dict[str, str]) -> Iterator[Served]:
    quiet = subprocess.DEVNULL
    process = subprocess.Popen(command, env=environment, stdout=quiet, stderr=quiet)
    try:
        _wait_for(port, process)
        yield Served(address=f"http://127.0.0.1:{port}/", pid=process.pid)
    finally:
        process.terminate()
        try:
            process.wait(timeout=ENDS_WITHIN)
        except subprocess.TimeoutExpired:  # thirty kernels may take their time to end
            process.kill()
            process.wait()


def _wait_for(port: int, process: "subprocess.Popen[bytes]") -> None:
    """Wait until the server answers anything, on an address that starts no kernel."""
    deadline = time.monotonic() + STARTS_WITHIN
    while time.monotonic() < deadline and process.poll() is None:
        try:
            with urlopen(f"http://127.0.0.1:{port}/voila/static/voila.js", timeout=5):
                return
        except URLError:
            time.sleep(0.1)
    raise TimeoutError(f"the server on port {port} did not start")


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])
