"""A real bench and a real browser that may speak to that bench only."""

import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import (
    Browser,
    BrowserContext,
    Page,
    Request,
    expect,
    sync_playwright,
)

from tests.serve.running import RunningBench, running_bench

CHROMIUM = ("chromium", "chromium-browser", "google-chrome")
# Two browsers and two benches share the computer; no test takes its time from this.
expect.set_options(timeout=15_000)
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


def chromium() -> str | None:
    """A browser of the system; without one, the one that playwright installs."""
    named = os.environ.get("BENCHCALL_CHROMIUM")
    return named or next((found for name in CHROMIUM if (found := shutil.which(name))), None)


@pytest.fixture(scope="session")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[RunningBench]:
    """The bench with its own lessons, as ``benchcall`` serves it."""
    with running_bench(tmp_path_factory.mktemp("data")) as running:
        yield running


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """One Chromium for all tests."""
    with sync_playwright() as player:
        one = player.chromium.launch(executable_path=chromium(), args=FLAGS)
        yield one
        one.close()


class _Learner(NamedTuple):
    """A browser context, and what it asked of others than the bench."""

    context: BrowserContext
    strayed: list[str]


@pytest.fixture(scope="session")
def learner(browser: Browser, bench: RunningBench) -> Iterator[_Learner]:
    """One for all tests, so that scripts already read are not fetched again."""
    strayed: list[str] = []
    context = browser.new_context(
        base_url=bench.address, viewport={"width": 1280, "height": 800}, reduced_motion="reduce"
    )

    def note(request: Request) -> None:
        if not _is_at_home(request.url, bench.address):
            strayed.append(request.url)

    context.on("request", note)
    yield _Learner(context, strayed)
    context.close()


@pytest.fixture
def context(learner: _Learner, bench: RunningBench) -> Iterator[BrowserContext]:
    """A learner who has never been here; leaving the bench's own address fails the test."""
    context, strayed = learner
    yield context
    for page in context.pages:
        # Leaving a page frees its kernel; closing the browser would not.
        page.goto("about:blank")
    _forget(context, bench)
    for page in context.pages:
        page.close()
    found, strayed[:] = strayed[:], []
    assert not found, f"requests left the bench: {found}"


def _forget(context: BrowserContext, bench: RunningBench) -> None:
    """Nothing of who came before is left but the scripts and styles that all are given."""
    context.clear_cookies()
    page = context.new_page()
    memory = "local_storage,indexeddb,cache_storage,service_workers,websql"
    context.new_cdp_session(page).send(
        "Storage.clearDataForOrigin",
        {"origin": bench.address.rstrip("/"), "storageTypes": memory},
    )


@pytest.fixture
def page(context: BrowserContext) -> Page:
    """An empty tab."""
    return context.new_page()


@pytest.fixture
def pictures(tmp_path: Path) -> Path:
    """Where a test may leave screenshots."""
    return tmp_path


def _is_at_home(url: str, home: str) -> bool:
    address = urlsplit(url)
    return address.scheme in ("about", "blob", "data") or address.netloc == urlsplit(home).netloc
