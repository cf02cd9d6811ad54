"""Pages of a class in a real browser: when each is ready, and a reading painted."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from simulator.serve.commands.timing.browsing import (
    HELLO_READY,
    STAND,
    STAND_READY,
    a_browser,
    a_page,
    time_to,
)
from simulator.serve.commands.timing.class_room import CALL
from simulator.serve.commands.timing.servers import our_server, plain_server

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

CALL_READY = "[data-key^=place-]"
LESSON = "voila/render/01-normal-today.ipynb"
LESSON_READY = ".lesson"
BETWEEN = 500  # [ms]

# Presses what takes a reading, or else walks on, and waits until the view is painted.
_ACT = """
(passed) => new Promise((done) => {
  const open = (kind) => [...document.querySelectorAll(`[data-key^=${kind}-]:not([disabled])`)];
  const tests = open("test").filter((found) => !passed.includes(found.dataset.key));
  const places = open("place");
  const here = places.findIndex((found) => found.hasAttribute("aria-current"));
  const pressed = tests[0] || places[(here + 1) % places.length];
  const panel = document.querySelector(".call");
  const watcher = new MutationObserver(() => {
    if (panel.hasAttribute("aria-busy")) return;
    watcher.disconnect();
    requestAnimationFrame(() => done([performance.now() - begun, pressed.dataset.key]));
  });
  watcher.observe(panel, { attributeFilter: ["aria-busy"] });
  const begun = performance.now();
  setTimeout(() => done([performance.now() - begun, pressed.dataset.key]), 10000);
  pressed.click();
})
"""


def readiness(rounds: int) -> dict[str, dict[str, list[float]]]:
    """Open each page with an empty cache and again with a full one, hello pages in between.

    Parameters
    ----------
    rounds : int
        How often. [-]

    Returns
    -------
    dict
        Times of ``hello`` and of our pages, each ``cold`` and ``warm``. [s]
    """
    with (
        TemporaryDirectory() as folder,
        our_server(Path(folder)) as ours,
        plain_server(Path(folder)) as plain,
        a_browser() as browser,
    ):
        home = ours.address
        pages = {
            "hello": (plain.address, "", HELLO_READY),
            "test stand": (home, STAND, STAND_READY),
            "call": (home, "", CALL_READY),
            "lesson": (home, LESSON, LESSON_READY),
        }
        times: dict[str, dict[str, list[float]]] = {
            name: {"cold": [], "warm": []} for name in pages
        }
        for number in range(rounds + 1):
            for name, (address, path, selector) in pages.items():
                with a_page(browser, address) as page:
                    if name == "call":
                        path = _take_call(page, address)
                    found = {}
                    for kind in ("cold", "warm"):
                        found[kind] = time_to(page, address + path, selector)
                        page.goto("about:blank")
                        page.wait_for_timeout(BETWEEN)
                if number:  # the first round warms the servers
                    for kind, taken in found.items():
                        times[name][kind].append(taken)
        return times


def acts_in_browser(address: str, acts: int) -> list[float]:
    """Work a call in a real browser, about one act a second.

    Parameters
    ----------
    address : str
        Of the bench.
    acts : int
        How many. [-]

    Returns
    -------
    list of float
        From each click to the paint of its answer. [s]
    """
    with a_browser() as browser, _at_call(browser, address) as page:
        taken: list[float] = []
        passed: list[str] = []
        for _ in range(acts):
            milliseconds, key = page.evaluate(_ACT, passed)
            passed.append(key)
            taken.append(milliseconds / 1e3)
            page.wait_for_timeout(max(0.0, 1e3 - milliseconds))
        return taken


@contextmanager
def _at_call(browser: "Browser", address: str) -> "Iterator[Page]":
    with a_page(browser, address) as page:
        page.goto(address + _take_call(page, address))
        page.wait_for_selector(CALL_READY)
        yield page


def _take_call(page: "Page", address: str) -> str:
    """Open a visit without loading anything into the browser's cache."""
    page.request.get(address)
    cookies = {cookie["name"]: cookie["value"] for cookie in page.context.cookies()}
    taken = page.request.post(
        f"{address}start/{CALL}", form={"_xsrf": cookies["_xsrf"]}, max_redirects=0
    )
    return taken.headers["location"].lstrip("/")
