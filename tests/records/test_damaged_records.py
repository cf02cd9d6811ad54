"""Records that are damaged, new to many at once, or taken up again."""

import multiprocessing
import sqlite3
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from simulator.calls.events import Marked, Opened, Waited, WrittenUp
from simulator.records.visit_records import MovedOn, RecordsError, VisitRecord, VisitRecords

TOKEN = "token-one"
OPENERS, FILES = 4, 100


def record(token: str = TOKEN) -> VisitRecord:
    """A visit to be opened, its seed larger than any column of whole numbers."""
    return VisitRecord(
        token=token, number="", call="mallorn", seed=2**120 - 3, trainee="t", is_served=True,
        engine_version="test",
    )  # fmt: skip


def opened(path: Path, token: str = TOKEN) -> VisitRecords:
    """Records with one visit of three events."""
    found = VisitRecords(path)
    found.add(record(token), Opened(seq=0, minute=0.0, is_running=True), opened_at=0.0)
    found.append(token, [Marked(seq=1, minute=0.0, cause="undercharge", mark="likely")])
    found.append(token, [WrittenUp(seq=2, minute=5.0, text="Ünïcode \x00 'and' \"quotes\"; --")])
    return found


def damaged(path: Path, statement: str, *values: Any) -> None:
    """Write past the program."""
    connection = sqlite3.connect(path)
    connection.execute(statement, values)
    connection.commit()
    connection.close()


def test_new_records_on_the_same_file_go_on(tmp_path: Path) -> None:
    first = opened(tmp_path / "v.sqlite")
    kept = first.events(TOKEN)
    second = VisitRecords(tmp_path / "v.sqlite")
    assert second.events(TOKEN) == kept
    assert second.record(TOKEN).seed == 2**120 - 3
    second.append(TOKEN, [Waited(seq=3, minute=6.0, minutes=1.0)])
    assert len(first.events(TOKEN)) == 4
    with pytest.raises(MovedOn):
        first.append(TOKEN, [Waited(seq=3, minute=9.0, minutes=4.0)])
    assert first.events(TOKEN) == second.events(TOKEN)
    first.append(TOKEN, [])
    assert len(second.events(TOKEN)) == 4


def test_a_token_is_given_once(tmp_path: Path) -> None:
    records = opened(tmp_path / "v.sqlite")
    with pytest.raises(RecordsError):
        records.add(record(), Opened(seq=0, minute=0.0, is_running=False), opened_at=1.0)
    assert len(records.of_trainee("t")) == 1
    assert len(records.events(TOKEN)) == 3


DAMAGE: list[tuple[str, Any]] = [
    *(
        ("update events set payload = ? where seq = 1", payload)
        for payload in (
            "", "{", "[1, 2]", "7", "null", "{}", '{"cause": "undercharge"}', "\x00", b"\xff\xfe",
            '{"cause": 3, "mark": "likely"}', '{"cause": "undercharge", "mark": ["likely"]}',
            '{"cause": "undercharge", "mark": "likely", "seq": 9}', "[" * 100_000,
            '{"cause": ' + "9" * 5000 + ', "mark": "likely"}',
        )
    ),
    # Bytes that are no UTF-8, in a column of texts: SQLite keeps what it is given.
    *(
        (f"update events set {column} = cast(? as text) where seq = 1", junk)
        for column in ("payload", "kind")
        for junk in (b"\xff\xfe", b'{"cause": "\xe9", "mark": "likely"}', b"\xed\xa0\x80")
    ),
    ("update events set payload = ? where seq = 1", b'{"cause": "undercharge", "mark": "likely"}'),
    ("update events set kind = ? where seq = 1", "Teleported"),
    ("update events set kind = ? where seq = 1", "Closed"),
    ("update events set minute = ? where seq = 1", "soon"),
    ("update events set minute = ? where seq = 1", float("inf")),
    ("update events set seq = ? where seq = 1", "first"),
    ("update events set seq = ? where seq = 1", 7),
    ("delete from events where seq = ?", 0),
    ("delete from events where seq = ?", 1),
    ("delete from events where seq < ?", 9),
]  # fmt: skip


@pytest.mark.parametrize(("statement", "value"), DAMAGE, ids=lambda part: str(part)[:40])
def test_a_damaged_visit_is_said_and_hides_no_other(
    tmp_path: Path, statement: str, value: Any
) -> None:
    path = tmp_path / "v.sqlite"
    opened(path).close()
    damaged(path, statement, value)
    records = opened(path, "token-two")
    rows = sqlite3.connect(path)
    rows.text_factory = bytes
    before = rows.execute("select * from events where visit = 1").fetchall()
    with pytest.raises(RecordsError, match=r"damaged|gaps") as problem:
        records.events(TOKEN)
    assert str(problem.value).count(".") == 1
    assert rows.execute("select * from events where visit = 1").fetchall() == before
    rows.close()
    assert len(records.events("token-two")) == 3
    assert [found.token for found in records.of_trainee("t")] == ["token-two", TOKEN]


@pytest.mark.parametrize(
    ("statement", "value"),
    [
        ("update visits set seed = ?", "seven"),
        *(
            (f"update visits set {column} = cast(? as text)", b"\xff\xfe")
            for column in ("seed", "call", "engine_version")
        ),
    ],
)
def test_a_damaged_head_is_said_and_hides_no_other(
    tmp_path: Path, statement: str, value: Any
) -> None:
    path = tmp_path / "v.sqlite"
    opened(path).close()
    damaged(path, statement, value)
    records = opened(path, "token-two")
    with pytest.raises(RecordsError, match="damaged"):
        records.record(TOKEN)
    assert [found.token for found in records.of_trainee("t")] == ["token-two"]


@pytest.mark.parametrize("head", [b"", b"SQLite format 3\x00"])
def test_random_bytes_are_said_and_left_as_they_are(tmp_path: Path, head: bytes) -> None:
    path = tmp_path / "v.sqlite"
    junk = head + np.random.default_rng(3).bytes(8192)
    path.write_bytes(junk)
    with pytest.raises(RecordsError) as problem:
        VisitRecords(path).of_trainee("t")
    assert "sqlite" not in str(problem.value).lower()
    assert path.read_bytes() == junk


def test_a_folder_that_is_not_there_is_said(tmp_path: Path) -> None:
    with pytest.raises(RecordsError, match="cannot be written"):
        VisitRecords(tmp_path / "nowhere" / "v.sqlite")


def test_nothing_is_stored_that_is_no_number(tmp_path: Path) -> None:
    records = opened(tmp_path / "v.sqlite")
    with pytest.raises(ValueError, match="JSON"):
        records.append(TOKEN, [Waited(seq=3, minute=6.0, minutes=float("nan"))])
    assert len(records.events(TOKEN)) == 3


def _open(path: str, index: int, gate: Any) -> None:
    gate.wait(60.0)
    opened(Path(path), f"token-{index}").close()


def _open_each(folder: str, gate: Any, failed: Any) -> None:
    for number in range(FILES):
        gate.wait(60.0)
        try:
            VisitRecords(Path(folder) / f"{number}.sqlite").close()
        except RecordsError:
            with failed.get_lock():
                failed.value += 1


def test_pages_that_open_new_files_at_once_wait_for_each_other(tmp_path: Path) -> None:
    context = multiprocessing.get_context("spawn")
    gate, failed = context.Barrier(OPENERS), context.Value("i", 0)
    pages = [
        context.Process(target=_open_each, args=(str(tmp_path), gate, failed))
        for _ in range(OPENERS)
    ]
    for page in pages:
        page.start()
    for page in pages:
        page.join(60.0)
    assert [page.exitcode for page in pages] == [0] * OPENERS
    assert failed.value == 0
    assert len(list(tmp_path.glob("*.sqlite"))) == FILES


def test_many_pages_open_one_new_file_at_once(tmp_path: Path) -> None:
    path = tmp_path / "v.sqlite"
    context = multiprocessing.get_context("spawn")
    gate = context.Barrier(OPENERS)
    pages = [context.Process(target=_open, args=(str(path), i, gate)) for i in range(OPENERS)]
    for page in pages:
        page.start()
    for page in pages:
        page.join(60.0)
    assert [page.exitcode for page in pages] == [0] * OPENERS
    assert len(VisitRecords(path).of_trainee("t")) == OPENERS
