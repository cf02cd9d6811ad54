"""Tables are worked out once for all processes of a bench, and are what they were."""

import os
import pickle
import shutil
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import numpy as np
import pytest

from simulator.calls import call_file, events
from simulator.calls.kept_tables import FOLDER, kept
from simulator.calls.visit import Visit, advanced
from simulator.diagnosis import belief, expected
from simulator.diagnosis.next_reading import next_readings
from simulator.serve.paths import data_directory
from simulator.serve.web.shared_tables import shared_tables


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv(FOLDER, str(tmp_path))
    return tmp_path


def test_many_at_once_work_a_table_out_once(folder: Path) -> None:
    made: list[str] = []

    def slowly() -> dict[str, int]:
        made.append("made")
        time.sleep(0.2)
        return {"table": 7}

    with ThreadPoolExecutor(6) as pool:
        found = list(pool.map(lambda _: kept(("a", 1.5), slowly), range(6)))
    assert found == [{"table": 7}] * 6
    assert made == ["made"]
    assert kept(("a", 1.25), lambda: {"table": 8}) == {"table": 8}
    assert len(list(folder.glob("*.table"))) == 2


def test_without_a_folder_or_with_a_broken_one_it_is_worked_out(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    kept("b", lambda: 1)
    (path,) = folder.glob("*.table")
    for damage in (b"", b"\x80\x05", b"no table"):
        path.write_bytes(damage)
        assert kept("b", lambda: 2) == 2
        assert kept("b", lambda: 9) == 2
    monkeypatch.setenv(FOLDER, str(folder / "no" / "such"))
    assert kept("b", lambda: 3) == 3
    monkeypatch.delenv(FOLDER)
    assert kept("b", lambda: 4) == 4


def test_the_folder_comes_and_goes_with_the_server(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("BENCHCALL_DATA", str(tmp_path))
    left = data_directory() / "tables-of-a-killed-one"
    left.mkdir()
    with shared_tables():
        own = Path(os.environ[FOLDER])
        assert not left.exists()
        assert own.stat().st_mode & 0o077 == 0
        assert kept("c", lambda: 5) == 5
        assert list(own.glob("*.table"))
    assert FOLDER not in os.environ
    assert not own.exists()


def test_a_lost_folder_is_built_again(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    lost = folder / "lost"
    monkeypatch.setenv(FOLDER, str(lost))
    assert kept("d", lambda: 1) == 1
    assert lost.stat().st_mode & 0o077 == 0
    assert kept("d", lambda: 2) == 1
    shutil.rmtree(lost)
    assert kept("d", lambda: 3) == 3
    assert kept("d", lambda: 4) == 3


def test_a_second_bench_leaves_the_folder_of_the_first(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("BENCHCALL_DATA", str(tmp_path))
    first = _bench_beside()
    try:
        assert first.stdout is not None
        theirs = Path(first.stdout.readline().strip())
        with shared_tables():
            own = Path(os.environ[FOLDER])
            assert own != theirs
            assert (theirs / "kept").read_text() == "by the first"
        assert theirs.is_dir()
    finally:
        first.kill()
        first.communicate(timeout=20)
    assert theirs.is_dir()
    with shared_tables():
        assert not theirs.exists()
    assert not list(tmp_path.glob("tables-*"))


def _bench_beside() -> "subprocess.Popen[str]":
    """A process that owns a folder until it is killed."""
    script = (
        "import os, time; from pathlib import Path; "
        "from simulator.serve.web.shared_tables import FOLDER, shared_tables\n"
        "with shared_tables():\n"
        "    Path(os.environ[FOLDER], 'kept').write_text('by the first')\n"
        "    print(os.environ[FOLDER], flush=True)\n"
        "    time.sleep(60)\n"
    )
    return subprocess.Popen([sys.executable, "-c", script], stdout=subprocess.PIPE, text=True)


def test_a_kept_table_says_what_the_one_worked_out_says(monkeypatch: pytest.MonkeyPatch) -> None:
    call = call_file.load("mallorn")
    table = expected.expected_at(call)
    again = pickle.loads(pickle.dumps(table, pickle.HIGHEST_PROTOCOL))
    visit = advanced(Visit(), events.Opened(seq=0, minute=0.0, is_running=True))
    told = next_readings(belief.standing(visit, call), visit, call)
    monkeypatch.setattr(belief, "expected_at", lambda _: again)
    now = belief.standing(visit, call)
    assert now.table is again
    assert next_readings(now, visit, call) == told
    assert np.array_equal(again.running.mean, table.running.mean)
