"""``benchcall bench class``: a class of thirty on this computer, beside hello pages."""

import asyncio
import json
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from statistics import median, quantiles
from tempfile import TemporaryDirectory

from simulator.serve.commands.timing.class_room import (
    Burst,
    Trainee,
    acting,
    hello_burst,
    kernels_memory,
    our_burst,
)
from simulator.serve.commands.timing.figures import Figure, as_data, class_table
from simulator.serve.commands.timing.screens import acts_in_browser, readiness
from simulator.serve.commands.timing.servers import Served

ACTS = 20
MANY_ACTS = 200


def run(trainees: int, rounds: int, as_json: bool) -> int:
    """Measure and print.

    Parameters
    ----------
    trainees : int
        How many at once. [-]
    rounds : int
        How often the pages are opened. [-]
    as_json : bool
        For programs.

    Returns
    -------
    int
        1 when something that is asked was missed. [-]
    """
    figures = [*_readiness(rounds), *asyncio.run(_class(trainees, rounds))]
    text = json.dumps(as_data(figures), indent=2) if as_json else class_table(figures)
    sys.stdout.write(text + "\n")
    return int(any(figure.is_met is False for figure in figures))


def _readiness(rounds: int) -> list[Figure]:
    times = readiness(rounds)
    hello = times.pop("hello")
    return [
        Figure(
            name=f"{page}_{kind}".replace(" ", "_"),
            what=f"{page}, ready in a browser, {title}",
            value=1e3 * median(taken[kind]),
            unit="ms",
            floor=1e3 * median(hello[kind]),
            most=1.3,
        )
        for page, taken in times.items()
        for kind, title in (("cold", "first visit"), ("warm", "visited before"))
    ]


@dataclass(frozen=True, slots=True)
class _Work:
    """What the class did once its pages were open."""

    growth: float
    answered: list[float]
    painted: list[float]


async def _class(trainees: int, rounds: int) -> list[Figure]:
    done: list[_Work] = []

    async def work(served: Served, first: Trainee, others: Sequence[Trainee]) -> None:
        growth = await _growth(served, first, trainees)
        screen = asyncio.to_thread(acts_in_browser, served.address, ACTS)
        answered, painted = await asyncio.gather(acting(others[1:], ACTS), screen)
        done.append(_Work(growth, answered, painted))

    ours, hello = [], []
    for number in range(rounds):
        is_last = number + 1 == rounds
        with TemporaryDirectory() as folder:
            hello.append(await hello_burst(trainees, Path(folder)))
        with TemporaryDirectory() as folder:
            ours.append(await our_burst(trainees, Path(folder), work if is_last else None))
    return [*_opening(trainees, ours, hello), *_working(trainees, done[0])]


def _opening(trainees: int, ours: Sequence[Burst], hello: Sequence[Burst]) -> list[Figure]:
    count = f"{len(ours)} × {trainees}"
    plain_failed = sum(burst.failed for burst in hello)
    return [
        Figure(
            name="failed",
            what=f"pages of {count} that failed (hello: {plain_failed})",
            value=sum(burst.failed for burst in ours),
            most=0,
        ),
        Figure(
            name="last_ready",
            what=f"the last of {trainees} call pages opened at once, with its first view",
            value=median(max(burst.ready) for burst in ours),
            unit="s",
            floor=median(max(burst.ready) for burst in hello),
            most=0.75,
        ),
        Figure(
            name="memory",
            what=f"memory a trainee (PSS, {trainees} at once, warm parent shared out)",
            value=max(burst.memory for burst in ours),
            unit="MB",
            most=50,
        ),
        Figure(
            name="hello_memory",
            what="memory of a hello page, the same way",
            value=max(burst.memory for burst in hello),
            unit="MB",
        ),
    ]


def _working(trainees: int, done: _Work) -> list[Figure]:
    return [
        Figure(
            name="growth",
            what=f"growth of that after {MANY_ACTS} mixed acts",
            value=done.growth,
            unit="%",
            most=10,
        ),
        Figure(
            name="answered",
            what=f"act to answer, {trainees} acting, 95 % within",
            value=1e3 * quantiles(done.answered, n=20)[-1],
            unit="ms",
        ),
        Figure(
            name="painted",
            what=f"click to reading on screen, {trainees} acting, 95 % within",
            value=1e3 * quantiles(done.painted, n=20)[-1],
            unit="ms",
            most=100,
        ),
    ]


async def _growth(served: Served, trainee: Trainee, others: int) -> float:
    """Growth of one kernel [%] while its trainee acts and the others look on."""
    before = kernels_memory(served.pid)
    for number in range(MANY_ACTS):
        await trainee.act(trainee.aside(number))
    mean = before / (others + 1)
    return 100 * (kernels_memory(served.pid) - before) / mean
