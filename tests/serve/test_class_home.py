"""What the home page says of a class's calls: not begun, under way, closed, and whose they are.

No outside source: who counts what is this project's own promise.
"""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from simulator.serve.classes.files import class_records
from simulator.serve.visits import visits
from tests.scoring.played import hasty_capstone
from tests.serve.class_room import send
from tests.serve.running import Client, RunningBench, running_bench


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[RunningBench]:
    """A server, and its records at hand."""
    monkeypatch.setenv("BENCHCALL_DATA", str(tmp_path))
    visits.records.cache_clear()
    with running_bench(tmp_path) as running:
        yield running


def part(client: Client, section: str) -> str:
    """One section of the home page, or nothing."""
    found = re.search(
        rf'<section aria-labelledby="{section}">(.*?)</section>', client.ask("").body, re.DOTALL
    )
    return found[1] if found else ""


def test_a_call_of_the_class_is_taken_gone_on_with_and_read(bench: RunningBench) -> None:
    code = class_records().open_class("Tuesday", ["mallorn", "rooke"]).code
    trainee = Client(bench.address)
    send(trainee, "join", code=code, name="Ana")
    assert part(trainee, "joined").count("Take the call") == 2
    token = trainee.take_call("mallorn").split("visit=")[1]
    under_way = part(trainee, "joined")
    assert f"call.ipynb?visit={token}" in under_way
    assert "under way, 0 min on site" in under_way
    assert under_way.count("Take the call") == 1
    # It stands there once, not also among the visits of one's own.
    assert part(trainee, "open") == ""
    hasty_capstone(visits.open_desk(token))
    closed = part(trainee, "joined")
    assert "closed after" in closed
    assert f"debrief.ipynb?visit={token}" in closed
    assert closed.count("Take the call") == 1
    again = trainee.take_call("mallorn").split("visit=")[1]
    assert again != token
    assert f"call.ipynb?visit={again}" in part(trainee, "joined")


def test_one_main_button_is_the_next_call_of_the_class(bench: RunningBench) -> None:
    code = class_records().open_class("Tuesday", ["mallorn", "rooke"]).code
    trainee = Client(bench.address)
    send(trainee, "join", code=code, name="Ana")
    mains = r'class="button(?: act)?"'
    (only,) = re.finditer(mains, trainee.ask("").body)
    assert "start/rooke" in trainee.ask("").body[: only.start()].rsplit("<li>", 1)[1]
    trainee.take_call("mallorn")
    (only,) = re.finditer(mains, trainee.ask("").body)
    assert "call.ipynb" in trainee.ask("").body[only.start() :].split("</li>", 1)[0]


def test_other_calls_say_that_the_class_does_not_count_them(bench: RunningBench) -> None:
    code = class_records().open_class("Tuesday", ["mallorn"]).code
    trainee = Client(bench.address)
    assert "For yourself" not in trainee.ask("").body
    send(trainee, "join", code=code, name="Ana")
    assert "For yourself: Tuesday does not count them" in part(trainee, "calls")
    # So does the page of the call itself, to which lessons and debriefs lead.
    said = "For yourself: Tuesday does not count this call."
    assert said in trainee.ask("start/rooke").body
    assert said not in trainee.ask("start/mallorn").body
    token = trainee.take_call("rooke").split("visit=")[1]
    beside = part(trainee, "open")
    assert "For yourself: Tuesday does not count them." in beside
    assert f"call.ipynb?visit={token}" in beside
    assert token not in part(trainee, "joined")


def test_an_older_visit_of_a_class_is_not_called_ones_own(bench: RunningBench) -> None:
    """Two of one call are open: the newest stands with its call, and the class counts both."""
    code = class_records().open_class("Tuesday", ["mallorn"]).code
    trainee = Client(bench.address)
    send(trainee, "join", code=code, name="Ana")
    older, newest = (trainee.take_call("mallorn").split("visit=")[1] for _ in range(2))
    assert newest in part(trainee, "joined")
    assert older in part(trainee, "open")
    assert "does not count" not in part(trainee, "open")
    own = trainee.take_call("rooke").split("visit=")[1]
    counted, uncounted = part(trainee, "open").split("does not count")
    assert older in counted
    assert own in uncounted
