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

from tornado.httpclient import AsyncHTTPClient

from simulator.calls.events import Measured, Moved
from simulator.serve.classes.files import assignments, class_records
from simulator.serve.commands.timing.class_room import CALL, EVERY, Trainee, at_call
from simulator.serve.commands.timing.light_client import LightClient
from simulator.serve.instructor.door import set_password
from simulator.serve.visits import visits
from tests.serve.running import running_bench

PASSWORD = "four plain words here"
LATE, SLOW = 3.0, 0.150  # what is asked: board behind an act, 95 of 100 readings [s]


@dataclass(slots=True)
class Worker:
    """A trainee of a class, and how it went."""

    trainee: Trainee
    seat: int
    token: str
    readings: list[tuple[float, float]] = field(default_factory=list)  # answered at, took [s]

    async def act(self) -> None:
        """The next act, timed where it is a reading."""
        took = await self.trainee.act()
        if self.trainee.done[-1]["do"] == "measure":
            self.readings.append((time.time(), took))

    def sent(self) -> list[tuple[str, str]]:
        """What was done, as `stored` tells it."""
        return [(m["do"], m.get("test") or m["place"]) for m in self.trainee.done]


async def seated(client: LightClient, code: str, seat: int) -> Worker:
    """Join, take the call, open its page."""
    await client.fetch("")
    form = {"_xsrf": client.cookies["_xsrf"], "code": code, "name": f"Trainee {seat}"}
    joined = await client.fetch("join", form)
    assert joined.code == 303, joined.code
    path = await client.take_call(CALL)
    return Worker(await at_call(client, path), seat, path.split("visit=")[1])


@dataclass(slots=True)
class Room:
    """A class and its board, asked as its page asks it."""

    code: str
    workers: list[Worker] = field(default_factory=list)
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


async def _worked(address: str, rooms: Sequence[Room], trainees: int, acts: int) -> None:
    for room in rooms:
        for seat in range(1, trainees + 1):  # one by one: seats are numbered by joining
            room.workers.append(await seated(LightClient(address), room.code, seat))
    everybody = [worker for room in rooms for worker in room.workers]
    instructor = LightClient(address)
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
        worker.trainee.client.leave()


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
    rooms = [Room(code) for code in codes]
    with running_bench(folder) as bench:
        asyncio.run(_worked(bench.address, rooms, trainees, acts))
    everybody = [worker for room in rooms for worker in room.workers]
    sent = sum(len(worker.sent()) for worker in everybody)
    took = sorted(t for worker in everybody for _, t in worker.readings)
    late = [t for room in rooms for t in room.behind()]
    return {
        "acts": sent,
        "visits_not_as_sent": sum(stored(worker.token) != worker.sent() for worker in everybody),
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
