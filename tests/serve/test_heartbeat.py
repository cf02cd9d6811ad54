"""The page's question whether its kernel is there is answered, and nothing else is."""

import pytest

from simulator.serve.kernels.heartbeat import Heartbeat
from simulator.words.catalogue import catalogue


def test_it_answers_the_one_question_it_knows(monkeypatch: pytest.MonkeyPatch) -> None:
    said: list[object] = []
    line = Heartbeat(catalogue("en"))
    monkeypatch.setattr(line, "send", said.append)
    line._handle_custom_msg("there?", [])
    line._handle_custom_msg({"do": "anything"}, [])
    line._handle_custom_msg(None, [])
    assert said == ["here"]
