"""Append-only records: nothing doubled, nothing lost, damage said in one sentence."""

import multiprocessing
from pathlib import Path

import pytest

from simulator.calls.events import Opened, Waited
from simulator.records.visit_records import MovedOn, RecordsError, VisitRecord, VisitRecords

WRITERS, EACH = 30, 20


def record(token: str) -> VisitRecord:
    """A visit to be opened."""
    return VisitRecord(
        token=token, number="", call="mallorn", seed=7, trainee="t", is_served=True,
        engine_version="test",
    )  # fmt: skip


def opened(path: Path, token: str = "token-one") -> VisitRecords:
    """Records with one visit."""
    found = VisitRecords(path)
    found.add(record(token), Opened(seq=0, minute=0.0, is_running=True), opened_at=0.0)
    return found


def waited(seq: int) -> Waited:
    """Something that happened."""
    return Waited(seq=seq, minute=float(seq), minutes=1.0)


def test_what_is_stored_comes_back(tmp_path: Path) -> None:
    records = opened(tmp_path / "v.sqlite")
    records.append("token-one", [waited(1), waited(2)])
    again = VisitRecords(tmp_path / "v.sqlite")
    assert [event.seq for event in again.events("token-one")] == [0, 1, 2]
    assert again.record("token-one").call == "mallorn"
    assert [r.token for r in again.of_trainee("t")] == ["token-one"]


def test_a_visit_is_of_the_day_of_its_last_act(tmp_path: Path) -> None:
    records = opened(tmp_path / "v.sqlite")
    assert records.last_day("token-one") in ("1969-12-31", "1970-01-01")  # west or east
    records.append("token-one", [waited(1)])
    assert records.last_day("token-one") > "2020"


def test_an_act_sent_twice_is_stored_once(tmp_path: Path) -> None:
    records = opened(tmp_path / "v.sqlite")
    records.append("token-one", [waited(1)])
    with pytest.raises(MovedOn):
        records.append("token-one", [waited(1)])
    assert len(records.events("token-one")) == 2


def test_all_of_an_act_or_nothing(tmp_path: Path) -> None:
    records = opened(tmp_path / "v.sqlite")
    records.append("token-one", [waited(1)])
    with pytest.raises(MovedOn):
        records.append("token-one", [waited(2), waited(1)])
    assert len(records.events("token-one")) == 2


def test_gaps_and_strangers_are_refused(tmp_path: Path) -> None:
    records = opened(tmp_path / "v.sqlite")
    records.append("token-one", [waited(5)])
    with pytest.raises(RecordsError, match="gaps"):
        records.events("token-one")
    with pytest.raises(RecordsError, match="no visit at this address"):
        records.events("nobody")
    with pytest.raises(RecordsError, match="no visit at this address"):
        records.append("nobody", [waited(1)])


def test_a_damaged_file_is_said_and_left_as_it_is(tmp_path: Path) -> None:
    path = tmp_path / "v.sqlite"
    junk = b"this is not a database, it is a shopping list " * 40
    path.write_bytes(junk)
    with pytest.raises(RecordsError) as problem:
        VisitRecords(path).of_trainee("t")
    assert str(problem.value).endswith(".")
    assert path.read_bytes() == junk


def _write(path: str, index: int) -> None:
    records = opened(Path(path), f"token-{index:04d}")
    for seq in range(1, EACH + 1):
        records.append(f"token-{index:04d}", [waited(seq)])
    records.close()


def test_thirty_writers_at_once_lose_nothing(tmp_path: Path) -> None:
    path = tmp_path / "v.sqlite"
    opened(path).close()
    context = multiprocessing.get_context("spawn")
    with context.Pool(WRITERS) as pool:
        pool.starmap(_write, [(str(path), index) for index in range(WRITERS)])
    records = VisitRecords(path)
    for index in range(WRITERS):
        assert len(records.events(f"token-{index:04d}")) == EACH + 1
