"""Work apart from a page: an interpreter and memory of its own, behind the class's acts."""

import os
import signal
import sys
from pathlib import Path
from typing import Any

import pytest

from simulator.calls.kept_tables import FOLDER
from simulator.serve.kernels.apart import BEHIND, Lost, apart

pytestmark = [
    pytest.mark.skipif(sys.platform != "linux", reason="forks on Linux only"),
    pytest.mark.filterwarnings("ignore:This process.*fork:DeprecationWarning"),
]


@pytest.fixture(autouse=True)
def of_a_bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(FOLDER, str(tmp_path))


def test_the_answer_comes_from_a_child_behind_the_class() -> None:
    kept: list[bytes] = []

    def work() -> dict[str, Any]:
        kept.append(bytes(1000))
        return {"process": os.getpid(), "behind": os.nice(0), "of": os.getppid()}

    mine = os.nice(0)
    told = apart(work)
    assert told["process"] != os.getpid() == told["of"]
    assert told["behind"] == min(mine + BEHIND, 19)
    assert not kept
    with pytest.raises(ChildProcessError):
        os.waitpid(told["process"], os.WNOHANG)  # nothing of it is left to bury


def test_without_a_bench_it_is_done_here(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(FOLDER)
    assert apart(lambda: {"process": os.getpid()}) == {"process": os.getpid()}


def test_what_goes_wrong_there_is_raised_here_with_its_place() -> None:
    def work() -> dict[str, Any]:
        raise KeyError("no such thing")

    with pytest.raises(KeyError, match="no such thing") as raised:
        apart(work)
    assert "test_apart.py" in raised.value.__notes__[0]


def test_what_cannot_travel_is_told_in_words() -> None:
    class Local(Exception):
        pass

    def raising() -> dict[str, Any]:
        raise Local("of this test alone")

    with pytest.raises(RuntimeError, match="of this test alone"):
        apart(raising)
    with pytest.raises((RuntimeError, AttributeError, TypeError)):
        apart(lambda: {"no": lambda: None})


def test_a_child_that_was_ended_is_lost() -> None:
    def work() -> dict[str, Any]:
        os.kill(os.getpid(), signal.SIGKILL)
        return {}

    with pytest.raises(Lost):
        apart(work)
