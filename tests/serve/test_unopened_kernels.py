"""A kernel whose page never comes is ended; one whose page came is left alone."""

import asyncio

import pytest

from simulator.serve.kernels.page_kernels import PageKernels


@pytest.fixture
def kernels(monkeypatch: pytest.MonkeyPatch) -> PageKernels:
    """A manager that believes in two kernels, started long ago."""
    manager = PageKernels(unopened_seconds=60)
    monkeypatch.setattr(manager, "_kernels", {"crawler": None, "reader": None})
    monkeypatch.setattr(manager, "_kernel_connections", {"crawler": 0, "reader": 0})
    monkeypatch.setattr(manager, "_unopened", {"crawler": -1e9, "reader": -1e9})
    return manager


def test_only_the_kernel_that_nobody_opened_is_ended(
    kernels: PageKernels, monkeypatch: pytest.MonkeyPatch
) -> None:
    ended: list[str] = []

    async def end(kernel_id: str) -> None:
        ended.append(kernel_id)

    monkeypatch.setattr(kernels, "shutdown_kernel", end)
    kernels.notify_connect("reader")
    asyncio.run(kernels._free_unopened())
    asyncio.run(kernels._free_unopened())
    assert ended == ["crawler"]


def test_a_kernel_without_an_owner_belongs_to_nobody(kernels: PageKernels) -> None:
    assert not kernels.is_owned_by("reader", "")
    assert not kernels.is_owned_by("reader", "someone")
    assert not kernels.is_owned_by("no-such-kernel", "someone")
