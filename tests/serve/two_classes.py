"""Two classes at once against one server: ``python -m tests.serve.two_classes [trainees acts]``.

Light clients work a call each while two boards are asked once a second, as their pages do. Told
is whether an act was lost or doubled, how late the boards were, and how long readings took.
"""

import asyncio
import json
import os
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from typing import Any

from tornado.httpclient import AsyncHTTPClient

from simulator.calls.events import Measured, Moved
from simulator.serve import visits
from simulator.serve.class_files import assignments, class_records
from simulator.serve.instructor_door import set_password
from tests.serve.light_client import LightClient, panel_of
from tests.serve.running import running_bench

PASSWORD = "four plain words here"
CALL = "rooke"
EVERY = 1.0  # between a trainee's acts, and between a board's questions [s]
LATE, SLOW = 3.0, 0.150  # what is asked: board behind an act, 95 of 100 readings [s]


@dataclass(slots=True)
class Worker:
    """A trainee without a screen."""

    client: LightClient
    seat: int
    token: str = ""
    panel: str = ""
    view: dict[str, Any] = field(default_factory=dict)
    sent: list[tuple[str, str]] = field(default_factory=list)
    readings: list[tuple[float, float]] = field(default_factory=list)  # answered at, took [s]
    round: int = 0

    async def begin(self, code: str) -> None:
        """Join, take the call, open its page."""
        await self.client.fetch("")
        form = {"_xsrf": self.client.cookies["_xsrf"], "code": code, "name": f"Trainee {self.seat}"}
        joined = await self.client.fetch("join", form)
        assert joined.code == 303, joined.code
        path = await self.client.take_call(CALL)
        self.token = path.split("visit=")[1]
        self.panel = panel_of(await self.client.open(path))
        looked = {"do": "look_around", "units": "us", "id": 1}
        self.view = (await self.client.ask(self.panel, looked))["view"]

    async def act(self) -> None:
        """The next reading that can be taken here, or a walk to the next place."""
        message = self._next()
        begun = time.perf_counter()
        answer = await self.client.ask(self.panel, {**message, "units": "us", "id": 2})
        took = time.perf_counter() - begun
        assert "problem" not in answer, answer["problem"]
        self.view = answer["view"]
        self.sent.append((message["do"], message.get("test") or message["place"]))
        if message["do"] == "measure":
            self.readings.append((time.time(), took))

    def _next(self) -> dict[str, Any]:
        places = self.view["places"]
        here = next(n for n, place in enumerate(places) if place["id"] == self.view["here"])
        for test in places[here]["tests"]:
            if not test["blocked"] and test["times_taken"] <= self.round:
                technique = test["techniques"][0]["id"]
                return {"do": "measure", "test": test["id"], "technique": technique}
        if here + 1 == len(places):
            self.round += 1
        return {"do": "go", "place": places[(here + 1) % len(places)]["id"]}


@dataclass(slots=True)
class Room:
    """A class and its board, asked as its page asks it."""

    code: str
    workers: list[Worker]
    seen: list[tuple[float, list[int]]] = field(default_factory=list)
    asked: list[float] = field(default_factory=list)

    async def watch(self, instructor: LightClient, over: asyncio.Event) -> None:
        """Ask for the rows until everybody is done, and once more."""
        is_last = False
        while not is_last:
            is_last = over.is_set()
            begun = time.perf_counter()
            answer = await instructor.fetch(f"instructor/class/{self.code}/rows")
            self.asked.append(time.perf_counter() - begun)
            rows = json.loads(answer.body)["rows"]
            self.seen.append((time.time(), [row["readings"] for row in rows]))
            await asyncio.sleep(EVERY)

    def behind(self) -> list[float]:
        """How long after its answer each reading stood on the board. [s]"""
        late = []
        for worker in self.workers:
            for count, (answered, _) in enumerate(worker.readings, start=1):
                shown = [at for at, rows in self.seen if rows[worker.seat - 1] >= count]
                late.append(max(min(shown, default=float("inf")) - answered, 0.0))
        return late


async def _worked(rooms: Sequence[Room], instructor: LightClient, acts: int) -> None:
    everybody = [worker for room in rooms for worker in room.workers]
    codes = {id(worker): room.code for room in rooms for worker in room.workers}
    for worker in everybody:  # one by one: seats are numbered by joining
        await worker.begin(codes[id(worker)])
    await instructor.fetch("")
    form = {"_xsrf": instructor.cookies["_xsrf"], "password": PASSWORD}
    assert (await instructor.fetch("instructor/door", form)).code == 303
    over = asyncio.Event()
    boards = [asyncio.create_task(room.watch(instructor, over)) for room in rooms]

    async def work(number: int, worker: Worker) -> None:
        await asyncio.sleep(EVERY * number / len(everybody))
        for _ in range(acts):
            begun = time.perf_counter()
            await worker.act()
            await asyncio.sleep(max(0.0, EVERY - (time.perf_counter() - begun)))

    await asyncio.gather(*(work(*pair) for pair in enumerate(everybody)))
    over.set()
    await asyncio.gather(*boards)
    for worker in everybody:
        worker.client.leave()


def stored(token: str) -> list[tuple[str, str]]:
    """Acts of a visit as the records have them."""
    told = []
    for event in visits.records().events(token):
        if isinstance(event, Measured):
            told.append(("measure", event.reading.measurement))
        elif isinstance(event, Moved):
            told.append(("go", event.place))
    return told


def two_classes(trainees: int, acts: int, folder: Path) -> dict[str, float]:
    """Run both classes and say what came out.

    ``BENCHCALL_DATA`` must name the folder. Times are in seconds.
    """
    set_password(PASSWORD)
    codes = [class_records().open_class(name, [CALL]).code for name in ("Morning", "Evening")]
    assignments().assign(codes[1], CALL, "practice", 600.0)
    AsyncHTTPClient.configure(None, max_clients=8 * trainees)
    with running_bench(folder) as bench:
        rooms = [
            Room(code, [Worker(LightClient(bench.address), n + 1) for n in range(trainees)])
            for code in codes
        ]
        asyncio.run(_worked(rooms, LightClient(bench.address), acts))
    everybody = [worker for room in rooms for worker in room.workers]
    sent = sum(len(worker.sent) for worker in everybody)
    took = sorted(t for worker in everybody for _, t in worker.readings)
    late = [t for room in rooms for t in room.behind()]
    return {
        "acts": sent,
        "visits_not_as_sent": sum(stored(worker.token) != worker.sent for worker in everybody),
        "readings": len(took),
        "reading_median": median(took),
        "reading_p95": took[max(0, round(0.95 * len(took)) - 1)],
        "reading_slowest": took[-1],
        "board_latest": max(late),
        "board_question_slowest": max(t for room in rooms for t in room.asked),
    }


def main() -> None:
    """Measure and print; status 1 where a bar is missed."""
    trainees, acts = (int(text) for text in (*sys.argv[1:], "15", "30")[:2])
    with TemporaryDirectory() as name:
        os.environ["BENCHCALL_DATA"] = name
        figures = two_classes(trainees, acts, Path(name))
    for what, value in figures.items():
        sys.stdout.write(f"{what}: {value:g}\n")
    is_met = (
        figures["visits_not_as_sent"] == 0
        and figures["board_latest"] <= LATE
        and figures["reading_p95"] <= SLOW
    )
    sys.exit(0 if is_met else 1)


if __name__ == "__main__":
    main()
