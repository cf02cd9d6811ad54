"""A class on this computer: everyone opens a call at once, and then all work.

Thirty light clients open pages of ours and as many hello pages of plain Voila, in turn; then
the trainees of the last round take readings, one of them in a real browser.
"""

import asyncio
import time
from collections.abc import Awaitable, Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import psutil
from tornado.httpclient import AsyncHTTPClient, HTTPError
from tornado.iostream import StreamClosedError

from simulator.serve.commands.timing.light_client import LightClient, NotReady, panel_of
from simulator.serve.commands.timing.servers import Served, our_server, plain_server

CALL = "rooke"
EVERY = 1.0  # [s] between a trainee's acts
WARM = 3.0  # [s] after the first page, so that nothing of the start falls into the burst
FAILURES = (NotReady, HTTPError, StreamClosedError, TimeoutError, OSError)
LOOK = {"do": "look_around", "units": "us", "id": 1}


@dataclass(frozen=True, slots=True)
class Burst:
    """Pages opened at once.

    Parameters
    ----------
    ready : tuple of float
        When each was ready. [s]
    failed : int
        How many were not. [-]
    memory : float
        Proportional set size of all kernels and what they share, a page. [MB]
    """

    ready: tuple[float, ...]
    failed: int
    memory: float


@dataclass(slots=True)
class Trainee:
    """A light client at a call.

    Parameters
    ----------
    client : LightClient
        With its page open.
    panel : str
        Model of the call.
    view : dict
        What the call last showed.
    round : int
        How often all that can be taken has been taken. [-]
    done : list
        Every act that was answered, as it was sent.
    """

    client: LightClient
    panel: str
    view: dict[str, Any]
    round: int = 0
    done: list[dict[str, Any]] = field(default_factory=list)

    async def act(self, message: dict[str, Any] | None = None) -> float:
        """Take the next reading that can be taken, walking when the place has no more.

        Parameters
        ----------
        message : dict, optional
            What to do instead.

        Returns
        -------
        float
            From the message to its answer. [s]

        Raises
        ------
        NotReady
            Where the act was refused.
        """
        message = message or self._next()
        begun = time.perf_counter()
        answer = await self.client.ask(self.panel, {**message, "units": "us", "id": 2})
        taken = time.perf_counter() - begun
        if "problem" in answer:
            raise NotReady(str(answer["problem"]))
        self.view = answer["view"]
        self.done.append(message)
        return taken

    def aside(self, number: int) -> dict[str, Any] | None:
        """What a trainee does between readings.

        Parameters
        ----------
        number : int
            Of the act. [-]

        Returns
        -------
        dict or None
            Of every ten acts one mark, one wait and one preparation where one is left; of
            every fifty a finding and a text to the customer.
        """
        causes, sheet = self.view["causes"], self.view["sheet"]
        one = causes[number // 10 % len(causes)]["code"]
        match number % 10:
            case 2:
                mark = "likely" if number % 20 == 2 else "ruled_out"
                return {"do": "mark", "cause": one, "as": mark}
            case 4:
                return {"do": "wait", "minutes": "5"}
            case 6:
                here = next(p for p in self.view["places"] if p["id"] == self.view["here"])
                steps = [step["id"] for step in here["steps"] if not step["done"]]
                return {"do": "prepare", "step": steps[0]} if steps else None
            case 8 if number % 50 == 48 and sheet:
                return {"do": "declare", "causes": [one], "cited": [sheet[-1]["seq"]]}
            case 9 if number % 50 == 49:
                return {"do": "write_up", "text": f"What was found, as told at act {number}."}
        return None

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


async def at_call(client: LightClient, path: str) -> Trainee:
    """Open the page of a call up to its first view.

    Parameters
    ----------
    client : LightClient
        Without a page yet.
    path : str
        Of the page.

    Returns
    -------
    Trainee
    """
    panel = panel_of(await client.open(path))
    answer = await client.ask(panel, LOOK)
    return Trainee(client, panel, answer["view"])


async def hello_burst(count: int, folder: Path) -> Burst:
    """Open hello pages of plain Voila at once.

    Parameters
    ----------
    count : int
        How many. [-]
    folder : Path
        For the notebook.

    Returns
    -------
    Burst
    """

    async def greet(client: LightClient) -> None:
        states = await client.open("")
        if "hello" not in str(states):
            raise NotReady("no hello")

    AsyncHTTPClient.configure(None, max_clients=4 * count)
    with plain_server(folder) as served:
        await greet(LightClient(served.address))
        await asyncio.sleep(WARM)
        clients = [LightClient(served.address) for _ in range(count)]
        return await _burst(clients, greet, served)


async def our_burst(
    count: int,
    folder: Path,
    then: Callable[[Served, Trainee, Sequence[Trainee]], Awaitable[None]] | None = None,
) -> Burst:
    """Open a call page for each trainee at once, up to its first view.

    Parameters
    ----------
    count : int
        How many. [-]
    folder : Path
        For the server's data.
    then : callable or None
        What the class does while its pages are open; one more trainee has come first.

    Returns
    -------
    Burst
    """
    AsyncHTTPClient.configure(None, max_clients=4 * count)
    with our_server(folder) as served:
        clients = [LightClient(served.address) for _ in range(count + 1)]
        pages = {id(client): await client.take_call(CALL) for client in clients}
        trainees: list[Trainee] = []

        async def begin(client: LightClient) -> None:
            trainees.append(await at_call(client, pages[id(client)]))

        await begin(clients.pop())
        await asyncio.sleep(WARM)
        first = trainees.pop()
        burst = await _burst(clients, begin, served)
        if then is not None:
            await then(served, first, trainees)
        return burst


async def acting(trainees: Sequence[Trainee], acts: int) -> list[float]:
    """Let all act about once a second, not in step.

    Parameters
    ----------
    trainees : sequence of Trainee
        With their pages open.
    acts : int
        How many each. [-]

    Returns
    -------
    list of float
        From each message to its answer. [s]
    """

    async def work(number: int, trainee: Trainee) -> list[float]:
        await asyncio.sleep(EVERY * number / len(trainees))
        taken = []
        for _ in range(acts):
            taken.append(await trainee.act())
            await asyncio.sleep(max(0.0, EVERY - taken[-1]))
        return taken

    each = await asyncio.gather(*(work(*pair) for pair in enumerate(trainees)))
    return [taken for one in each for taken in one]


def kernels_memory(server: int) -> float:
    """Proportional set size of all that a server has started.

    Parameters
    ----------
    server : int
        Process number.

    Returns
    -------
    float
        Shared pages counted once. [MB]
    """
    children = psutil.Process(server).children(recursive=True)
    return sum(float(child.memory_full_info().pss) for child in children) / 1e6


async def _burst(
    clients: Sequence[LightClient], opened: Callable[[LightClient], Awaitable[None]], served: Served
) -> Burst:
    before = kernels_memory(served.pid)
    begun = time.perf_counter()

    async def one(client: LightClient) -> float | None:
        try:
            await opened(client)
        except FAILURES:
            return None
        return time.perf_counter() - begun

    ready = await asyncio.gather(*(one(client) for client in clients))
    good = tuple(taken for taken in ready if taken is not None)
    # The page that was opened first is one more than were asked for.
    memory = max(kernels_memory(served.pid), before) / (len(clients) + 1)
    return Burst(good, len(clients) - len(good), memory)
