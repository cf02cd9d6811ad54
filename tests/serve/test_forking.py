"""Kernels forked from a warm parent: their own in all things, and ended with it."""

import asyncio
import json
import os
import re
import signal
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import psutil
import pytest

from simulator.serve.kernels.forking.parent_line import ForkFailed, WarmParent
from tests.serve.conftest import SECRET
from tests.serve.running import (
    Client,
    RunningBench,
    kernel_of,
    lesson_block,
    running_bench,
    soon,
    write_notebook,
)

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="forks on Linux only")

# What a kernel is, told by itself. The word to look for comes backwards and is kept in
# halves, so that looking for it does not put it into the memory that is searched.
CONFESSION = """
import gc, json, os, sys
import numpy as np
from IPython.display import HTML, display
from simulator.calls.sealed import sealed

asked = os.environ["QUERY_STRING"]
found = 0
if asked.startswith("find="):
    wanted = asked.removeprefix("find=")
    half = len(wanted) // 2
    head, tail = wanted[half:][::-1].encode(), wanted[:half][::-1].encode()
    room = bytearray(1 << 20)
    with open("/proc/self/maps") as maps, open("/proc/self/mem", "rb", 0) as memory:
        for line in maps.read().splitlines():
            place, rights = line.split()[:2]
            if "r" not in rights or "[v" in line:
                continue
            start, end = (int(side, 16) for side in place.split("-"))
            while start < end:
                memory.seek(start)
                try:
                    size = memory.readinto(memoryview(room)[: end - start])
                except OSError:
                    break
                at = room.find(head, 0, size)
                while at >= 0:
                    at += len(head)
                    found += room[at : at + len(tail)] == tail
                    at = room.find(head, at, size)
                start += size if start + size == end else size - 100
# The heap of a further thread takes 64 MiB of addresses, aligned: the used part, then the rest.
with open("/proc/self/maps") as maps:
    spans = [line.replace("-", " ", 1).split()[:3] for line in maps]
heaps = [
    start
    for (start, middle, used), (_, end, rest) in zip(spans, spans[1:])
    if (used, rest) == ("rw-p", "---p") and int(start, 16) % (64 << 20) == 0
    if int(end, 16) - int(start, 16) == 64 << 20
]
told = {
    "pid": os.getpid(),
    "asked": asked,
    "trainee": os.environ["HTTP_X_BENCHCALL_TRAINEE"],
    "folder": os.getcwd(),
    "drawn": float(np.random.random()),
    "input": os.readlink("/proc/self/fd/0"),
    "output": [os.readlink(f"/proc/self/fd/{n}") for n in (1, 2)],
    "collects": gc.isenabled(),
    "leads": os.getpgrp() == os.getpid(),
    "debugger": "pydevd" in sys.modules,
    "found": found,
    "heaps": len(heaps),
    "keys": sealed.cache_info().currsize,
}
display(HTML("told:" + json.dumps(told).encode().hex() + ":told"))
"""


@pytest.fixture(scope="module")
def lessons(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("lessons")
    write_notebook(folder / "confession.ipynb", CONFESSION, **lesson_block("Confession"))
    return folder


@pytest.fixture(scope="module")
def bench(lessons: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[RunningBench]:
    data = tmp_path_factory.mktemp("data")
    with running_bench(data, lessons=lessons, SOME_PASSWORD=SECRET) as running:
        yield running


def told(bench: RunningBench, asked: str = "", client: Client | None = None) -> dict[str, Any]:
    """Open a page, hear its kernel and leave it running."""
    page = (client or Client(bench.address)).ask(f"voila/render/confession.ipynb{asked}").body
    found = re.search("told:([0-9a-f]+):told", page)
    assert found, page[-500:]
    return json.loads(bytes.fromhex(found[1])) | {"kernel": kernel_of(page)}


def parent_of(bench: RunningBench) -> psutil.Process:
    parent = bench.warm_parent()
    assert parent is not None
    return parent


def test_pages_are_forked_and_each_is_its_own(bench: RunningBench, lessons: Path) -> None:
    one, other = told(bench, "?visit=11111111"), told(bench, "?visit=22222222")
    parent = parent_of(bench)
    assert {one["pid"], other["pid"]} <= {child.pid for child in parent.children()}
    assert (one["asked"], other["asked"]) == ("visit=11111111", "visit=22222222")
    assert len({one["trainee"], other["trainee"], ""}) == 3
    assert one["drawn"] != other["drawn"]
    for kernel in (one, other):
        assert kernel["folder"] == str(lessons)
        assert kernel["input"] == os.devnull
        assert kernel["output"] == [str(bench.data / "log" / "kernel.log")] * 2
        assert kernel["collects"]
        assert kernel["leads"]
        assert kernel["heaps"] == 0, "more than one heap keeps what answers took"
        # "Nothing in warm_up may read a key": what the parent read, every page would hold.
        assert kernel["keys"] == 0, "a page holds keys of calls it has not opened"
        assert not kernel["debugger"]


def test_a_parent_of_one_thread_is_forked(bench: RunningBench) -> None:
    told(bench)
    assert parent_of(bench).num_threads() == 1


def test_nothing_secret_of_the_server_is_inherited(bench: RunningBench) -> None:
    kernel = psutil.Process(told(bench)["pid"])
    server = psutil.Process(bench.process.pid)
    assert server.environ()["SOME_PASSWORD"] == SECRET
    for process in (kernel, parent_of(bench)):
        assert "SOME_PASSWORD" not in process.environ()
    assert told(bench, f"?find={SECRET[::-1]}")["found"] == 0


def test_a_page_remembers_nothing_of_another(bench: RunningBench) -> None:
    token = "a-token-of-another-page"
    told(bench, f"?visit={token}")
    assert told(bench, f"?find={token[::-1]}")["found"] == 0
    client = Client(bench.address)
    client.ask("")
    own = client.cookie("benchcall-trainee")
    assert told(bench, f"?find={own[::-1]}", client)["found"] > 0, "what is there is found"


def test_the_kernels_share_no_line_to_the_server(bench: RunningBench) -> None:
    kernel = told(bench)["pid"]
    line = Path(f"/proc/{parent_of(bench).pid}/fd/0").readlink()
    assert str(line).startswith("socket:")
    held = {file.readlink() for file in Path(f"/proc/{kernel}/fd").iterdir()}
    assert line not in held


def test_a_killed_kernel_is_noticed_and_buried(bench: RunningBench) -> None:
    kernel = told(bench)["pid"]
    before = {process.pid for process in bench.kernels()}
    os.kill(kernel, signal.SIGKILL)
    assert soon(lambda: not psutil.pid_exists(kernel)), "it is no zombie"
    # The server starts an empty one in its place, as it does for ordinary kernels.
    assert soon(lambda: {process.pid for process in bench.kernels()} - before, within=15)


def test_a_closed_page_ends_its_kernel(bench: RunningBench) -> None:
    client = Client(bench.address)
    before = {process.pid for process in bench.kernels()}
    kernel = kernel_of(client.ask("voila/render/confession.ipynb").body)
    assert client.close_page(kernel).status == 204
    assert soon(lambda: {process.pid for process in bench.kernels()} <= before, within=5)


def test_a_lost_parent_takes_its_kernels_and_is_replaced(lessons: Path, tmp_path: Path) -> None:
    with running_bench(tmp_path, lessons=lessons) as bench:
        kernel = told(bench)["pid"]
        first = parent_of(bench)
        first.kill()
        assert soon(lambda: not psutil.pid_exists(kernel), within=3)
        assert soon(lambda: bench.warm_parent() not in (None, first))
        again = told(bench)["pid"]
        assert again in {child.pid for child in parent_of(bench).children()}
        # One that cannot live is given up, and pages open all the same.
        for _ in range(3):
            lost = parent_of(bench)
            lost.kill()
            soon(lambda gone=lost: bench.warm_parent() not in (None, gone), within=3)
        assert bench.warm_parent() is None
        alone = psutil.Process(told(bench)["pid"])
        assert "simulator.serve.kernels.kernel" in alone.cmdline()
        assert bench.log("server").count("warm parent of the kernels has ended") >= 3


def test_all_end_with_a_server_that_was_killed(lessons: Path, tmp_path: Path) -> None:
    with running_bench(tmp_path, lessons=lessons) as bench:
        told(bench), told(bench)
        family = psutil.Process(bench.process.pid).children(recursive=True)
        assert len(family) == 3
        bench.process.kill()
        _, left = psutil.wait_procs(family, timeout=10)
        assert left == []


def test_kernels_are_not_forked_where_that_is_not_wanted(lessons: Path, tmp_path: Path) -> None:
    with running_bench(tmp_path, "--no-fork", lessons=lessons) as bench:
        kernel = psutil.Process(told(bench)["pid"])
        assert bench.warm_parent() is None
        assert "simulator.serve.kernels.kernel" in kernel.cmdline()


def test_a_parent_that_cannot_start_is_given_up(tmp_path: Path) -> None:
    # Data among the lessons are refused, so this parent ends at once.
    broken = {"BENCHCALL_LESSONS": str(tmp_path), "BENCHCALL_DATA": str(tmp_path / "data")}
    place = str(Path(__file__).parents[2])

    async def asked() -> list[str]:
        parent = WarmParent(broken | {"PYTHONPATH": place})
        parent.start()
        said = []
        for _ in range(4):
            with pytest.raises(ForkFailed) as failed:
                await parent.fork([], {}, "/")
            said.append(str(failed.value))
        parent.close()
        return said

    said = asyncio.run(asked())
    assert said[-1] == "there is no warm parent"
    assert len(said) == 4
