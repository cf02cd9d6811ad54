"""An error reaches the learner as a ticket number and the log as everything."""

import re
from pathlib import Path

import pytest

from simulator.serve.guard import guarded
from tests.serve.conftest import SECRET
from tests.serve.running import Client, RunningBench, kernel_of, soon


def test_a_failing_page_shows_a_ticket_only(test_bench: RunningBench, client: Client) -> None:
    page = client.ask("voila/render/broken.ipynb").body
    client.close_page(kernel_of(page))
    ticket = re.search(r"ticket ([0-9A-F]{6})", page)
    assert ticket
    for leak in (SECRET, "Traceback", "ValueError", "raise "):
        assert leak not in page
    assert soon(lambda: ticket[1] in test_bench.log("kernel"))
    assert SECRET in test_bench.log("kernel")


def test_a_guarded_callback_tells_a_ticket(caplog: pytest.LogCaptureFixture) -> None:
    told: list[str] = []

    def fails(number: int) -> None:
        raise ValueError(f"{SECRET} {number}")

    guarded(fails, told.append)(3)
    (sentence,) = told
    ticket = re.search(r"\(ticket ([0-9A-F]{6})\)", sentence)
    assert ticket
    assert SECRET not in sentence
    assert ticket[1] in caplog.text
    assert f"{SECRET} 3" in caplog.text


def test_a_guarded_callback_that_succeeds_tells_nothing() -> None:
    told: list[str] = []
    done: list[int] = []
    guarded(done.append, told.append)(4)
    assert (done, told) == ([4], [])


def test_the_data_folder_is_private(test_bench: RunningBench) -> None:
    log: Path = test_bench.data / "log"
    assert log.stat().st_mode & 0o077 == 0
