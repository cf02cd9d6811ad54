"""Collections between answers: now and then, after the answer, and only where they are cheap."""

import asyncio
import gc

import pytest

from simulator.serve.kernels import tidying


def collections_after(answers: int, monkeypatch: pytest.MonkeyPatch, frozen: int) -> list[str]:
    """What happened in which order while so many messages were answered."""
    happened: list[str] = []
    monkeypatch.setattr(tidying, "AFTER", 0.0)
    monkeypatch.setattr(gc, "get_freeze_count", lambda: frozen)
    monkeypatch.setattr(gc, "collect", lambda: happened.append("collected"))

    async def work() -> None:
        handle = tidying.tidied(lambda message: {"heard": message["n"]})
        for n in range(answers):
            assert handle({"n": n}) == {"heard": n}
            happened.append("answered")
            await asyncio.sleep(0.001)

    asyncio.run(work())
    return happened


def test_collects_now_and_then_after_the_answer(monkeypatch: pytest.MonkeyPatch) -> None:
    happened = collections_after(2 * tidying.EVERY, monkeypatch, frozen=1)
    round_of_answers = ["answered"] * tidying.EVERY + ["collected"]
    assert happened == 2 * round_of_answers


def test_leaves_a_kernel_alone_that_was_not_forked(monkeypatch: pytest.MonkeyPatch) -> None:
    assert "collected" not in collections_after(tidying.EVERY, monkeypatch, frozen=0)
