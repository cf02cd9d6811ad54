"""Damage to files is said in one sentence on the page, and nothing is lost."""

from pathlib import Path

import pytest

from simulator.calls import call_file
from simulator.calls.call_table import CallFileError
from simulator.serve import paths
from simulator.serve.visits import visits
from tests.serve.running import Client, running_bench


def test_a_damaged_database_is_said_on_the_home_page(tmp_path: Path) -> None:
    file = tmp_path / paths.RECORDS_FILE
    junk = b"not a database at all, however long one looks at it " * 60
    file.write_bytes(junk)
    with running_bench(tmp_path) as bench:
        answer = Client(bench.address).ask("")
    assert answer.status == 200
    assert "file of visits is damaged" in answer.body
    assert "Take the call" in answer.body
    assert file.read_bytes() == junk


def test_a_damaged_call_file_is_said_and_the_others_serve(monkeypatch: pytest.MonkeyPatch) -> None:
    whole = call_file.load

    def load(name: str) -> call_file.CallFile:
        if name == "rooke":
            raise CallFileError("The file of call rooke is damaged and cannot be opened.")
        return whole(name)

    monkeypatch.setattr(call_file, "load", load)
    others = {name for name in call_file.names() if name != "rooke"}
    assert {call["id"] for call in visits.list_calls()} == others
    assert call_file.damaged() == ["The file of call rooke is damaged and cannot be opened."]
