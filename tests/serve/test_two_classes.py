"""A sample of two classes at once; the whole is ``python -m tests.serve.two_classes``."""

from pathlib import Path

import pytest

from simulator.serve import application
from simulator.serve.instructor import door
from simulator.serve.visits import visits
from tests.serve.two_classes import LATE, two_classes


def test_two_small_classes_lose_nothing_and_their_boards_are_current(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Bars of the project; how long a reading takes is asked on a quiet computer only."""
    monkeypatch.setenv("BENCHCALL_DATA", str(tmp_path))
    visits.records.cache_clear()
    door.records.cache_clear()
    figures = two_classes(2, 6, tmp_path)
    assert figures["acts"] == 24
    assert figures["visits_not_as_sent"] == 0
    assert figures["board_latest"] <= LATE


def test_a_line_outlives_its_first_ping() -> None:
    """Jupyter Server looks for the answer to a ping when the next is due (base/websocket.py)."""
    assert application.PONG > application.PING
